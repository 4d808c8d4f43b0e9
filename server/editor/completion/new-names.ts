/** New names: the next free one in the spec's own pattern, where its things of that kind are numbered. */
import type { Analysis } from '../../analysis.ts';
import type { Context } from './context.ts';
import { linkableParts } from './names.ts';
import { kinds, type Offer } from './offers.ts';
import { undeclaredFor } from './undeclared.ts';

const numbered = /^(.*?)(\d+)$/su;

/** `link` names a part that is there; everything else declares. */
export function newNames(context: Context): Offer[] {
  const spec = context.at.spec?.spec;
  if (spec === undefined) return [];
  if (spec.word === 'link') return linkableParts(context);
  const name = nextName(context.analysis, spec.word, spec.example, context.at.replace.start);
  const used = undeclaredFor(context.analysis, spec).map(
    ({ name, by }): Offer => ({
      label: name,
      kind: kinds.Variable,
      detail: `${by} names it, and nothing declares it yet`,
    }),
  );
  return name === undefined
    ? used
    : [...used, { label: name, kind: kinds.Variable, detail: `the next free name for ${article(spec.word)}` }];
}

/** Where a name is declared. */
interface Declared {
  readonly name: string;
  readonly uri: string;
  readonly start: number;
}

interface Names {
  readonly all: ReadonlyMap<string, readonly Declared[]>;
  readonly byWord: ReadonlyMap<string, readonly Declared[]>;
}

const known = new WeakMap<Analysis, Names>();

/** Every name that is declared, and those of each kind of thing in their order; one pass for all who ask. */
function namesOf(analysis: Analysis): Names {
  let names = known.get(analysis);
  if (names === undefined) {
    const all = new Map<string, Declared[]>();
    const byWord = new Map<string, Declared[]>();
    const put = (map: Map<string, Declared[]>, key: string, one: Declared) => {
      const list = map.get(key);
      if (list === undefined) map.set(key, [one]);
      else list.push(one);
    };
    for (const { uri, statements } of analysis.model.files)
      for (const { node, shaped, offset } of statements) {
        const word = (shaped.wrapper ?? shaped.spec)?.word ?? '';
        for (const { value: name, span } of node.names) {
          const one = { name, uri, start: offset + span.start };
          if (word !== 'link') put(all, name, one);
          put(byWord, word, one);
        }
      }
    names = { all, byWord };
    known.set(analysis, names);
  }
  return names;
}

/**
 * The next free name of a kind: F4 after F3. The stem is that of most names of its kind, of several the last one; in a spec
 * that has none of them yet it is that of the kind's example. Undefined where names are no numbers (`LAMPS`). `but` is the
 * place of a name that is being typed and does not count.
 */
export function nextName(analysis: Analysis, word: string, example: string, but?: number): string | undefined {
  const { all, byWord } = namesOf(analysis);
  const isTyped = ({ uri, start }: Declared) => uri === analysis.uri && start === but;
  const own = (byWord.get(word) ?? []).filter((one) => !isTyped(one)).map(({ name }) => name);
  const taken = (name: string) => all.get(name)?.some((one) => !isTyped(one)) === true;
  const pattern = own.length === 0 ? exampleName(word, example) : mostUsed(own);
  const [, stem, digits] = numbered.exec(pattern ?? '') ?? [];
  if (stem === undefined || digits === undefined) return undefined;
  let number = own.length === 0 ? Number(digits) : greatest(own, stem) + 1;
  const name = () => `${stem}${String(number).padStart(digits.length, '0')}`;
  while (taken(name())) number += 1;
  return name();
}

/** The last name with the stem that most have; undefined when most have no number. */
function mostUsed(names: readonly string[]): string | undefined {
  const count = new Map<string | undefined, number>();
  const stemOf = (name: string) => numbered.exec(name)?.[1];
  for (const name of names) count.set(stemOf(name), (count.get(stemOf(name)) ?? 0) + 1);
  const most = Math.max(...count.values());
  const last = names.findLast((name) => count.get(stemOf(name)) === most);
  return last !== undefined && stemOf(last) !== undefined ? last : undefined;
}

function greatest(names: readonly string[], stem: string): number {
  return names.reduce((most, name) => {
    const found = numbered.exec(name);
    return found?.[1] === stem ? Math.max(most, Number(found[2])) : most;
  }, 0);
}

/** The name in `fuse F1 80 A`. */
export function exampleName(word: string, example: string): string | undefined {
  const [first, name] = example.split(' ');
  return first === word ? name : undefined;
}

export function article(word: string): string {
  return `${/^[aeiou]/u.test(word) ? 'an' : 'a'} ${word}`;
}
