/** A name or a title of several words: `battery Leisure battery 12 V`, `system Horse box, 12 V`. */
import type { Leftover, Surroundings } from './leftover.ts';
import { spanOf, textOf } from './mend.ts';
import { someWords } from './mends.ts';
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
  if (hasDigit.test(name.value) || words.some(({ text }) => unitOf(text) !== undefined)) return undefined;
  const span = { start: name.span.start, end: spanOf(words).end };
  const joined = [name, ...words].map(({ text }) => text).join('-');
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

/** The words that the atoms begin with, with numbers among them or without. */
export function wordsInRow(atoms: readonly Atom[], numbered: boolean): readonly Atom[] {
  const end = atoms.findIndex(({ kind }) => kind !== 'word' && !(numbered && kind === 'number'));
  return end === -1 ? atoms : atoms.slice(0, end);
}
