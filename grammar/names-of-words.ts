/** A name or a title of several words: `battery Leisure battery 12 V`, `system Horse box, 12 V`. */
import type { Leftover, Surroundings } from './leftover.ts';
import { spanOf, textOf } from './mend.ts';
import { someWords } from './mends.ts';
import { looksLikeName } from './name-problems.ts';
import { article, capital, problem, quoted, replace } from './phrases.ts';
import type { Atom, Problem } from './tree.ts';
import { unitOf } from './units.ts';

/** Names of the trade have a digit (`F1`): what follows those is a word that means nothing. */
const hasDigit = /\p{N}/u;

/** Words directly behind the only name of a part, place or run. */
export function nameOfWords(leftover: Leftover, { spec, wrapper, node }: Surroundings): Problem | undefined {
  const { segment, from, previous, atoms } = leftover;
  const [name, ...others] = node.names;
  const [first] = atoms;
  const directly = first === node.body[0] && from === 0 && segment.comma === undefined && previous === undefined;
  if (name === undefined || others.length > 0 || node.title !== undefined || wrapper !== undefined || !directly)
    return undefined;
  const words = wordsInRow(atoms, false);
  const second = spec.spec.head === 'names' ? secondName(name.value, words) : undefined;
  if (second !== undefined) return joinedBy(name, second);
  if (hasDigit.test(name.value) || words.some(({ text }) => unitOf(text) !== undefined)) return undefined;
  const span = { start: name.span.start, end: spanOf(words).end };
  const joined = [name, ...words].map(({ text }) => text).join('-');
  const [only] = words;
  if (oftenAlike.has(spec.spec.word) && words.length === 1 && only !== undefined && isAnother(name, only))
    return oneNameOrTwo(name, only, joined, spec.spec.word);
  const what = `${capital(article(spec.spec.word))} does not say ${quoted(textOf(words))}`;
  return problem(
    'unknown-clause',
    spanOf(words),
    `${what}: it says ${someWords(spec)}; as part of its name write ${joined}.`,
    [
      replace(`Write ${joined}`, span, joined, false),
      replace(`Put ${quoted(textOf(words))} in quotes, as a title`, spanOf(words), `"${textOf(words)}"`, false),
    ],
  );
}

/** Kinds of which two that are alike stand in one statement. */
const oftenAlike: ReadonlySet<string> = new Set(['load', 'panel', 'battery', 'socket', 'fuse', 'switch']);

const isAnother = (name: Atom, other: Atom): boolean => looksLikeName.test(other.text) && name.text !== other.text;

/** `load LEFT RIGHT`: one name in two words, or two names. */
function oneNameOrTwo(first: Atom, second: Atom, joined: string, word: string): Problem {
  const both = `${first.text} and ${second.text}`;
  const span = { start: first.span.start, end: second.span.end };
  const message = `${quoted(second.text)} stands by itself: write ${joined} as one name, or ${both} for two that are alike, ${article(word)} each.`;
  const fixes = [joined, both].map((right) => replace(`Write ${right}`, span, right, false));
  return problem('unknown-clause', second.span, message, fixes);
}

/** `LAMP-B` of `load LAMP-A LAMP-B`: a name like the first, and the only word. */
function secondName(first: string, [word, ...more]: readonly Atom[]): Atom | undefined {
  if (word === undefined || more.length > 0 || !looksLikeName.test(word.text)) return undefined;
  const stem = (name: string) => name.replace(/(?:[-_]?\p{N}+|[-_]\p{Lu}+)$/u, '');
  const isLike = stem(first) !== first && stem(first) === stem(word.text);
  return isLike ? word : undefined;
}

function joinedBy(first: Atom, second: Atom): Problem {
  const right = `${first.text} and ${second.text}`;
  const message = `Names that belong together are joined with “and”: write ${right}.`;
  const span = { start: first.span.start, end: second.span.end };
  return problem('unknown-clause', second.span, message, [replace(`Write ${right}`, span, right, false)]);
}

/** The words that the atoms begin with, with numbers among them or without. */
export function wordsInRow(atoms: readonly Atom[], numbered: boolean): readonly Atom[] {
  const end = atoms.findIndex(({ kind }) => kind !== 'word' && !(numbered && kind === 'number'));
  return end === -1 ? atoms : atoms.slice(0, end);
}
