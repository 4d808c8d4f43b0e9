/** Signs, quotes and glued words that stand for words of the notation. */
import type { Form } from './forms.ts';
import { type Mend, spanOf, textOf, word, writtenAs } from './mend.ts';
import { problem, quoted, replace } from './phrases.ts';
import type { Atom } from './tree.ts';

/** `at "GARAGE"`: a name in quotes. */
export function inQuotes(atoms: readonly Atom[], at: number, types: ReadonlySet<string>): Mend[] {
  const text = atoms[at];
  if (text?.kind !== 'text' || !/^\p{L}[\p{L}\p{M}\p{N}_-]*$/u.test(text.value)) return [];
  if (![...types].some((type) => type.startsWith('name<'))) return [];
  const { value, span } = text;
  const told = problem('unknown-clause', span, `A name stands without quotes: write ${value}.`, [
    replace(`Write ${value}`, span, value, true),
  ]);
  return [{ at, remove: 1, put: [word(value, [text])], problem: told }];
}

/** `atleast` for `at least`. */
export function glued(written: Atom, at: number, words: readonly string[]): Mend[] {
  if (written.kind !== 'word') return [];
  const first = words.find(
    (one) =>
      written.value.toLowerCase().startsWith(one) && gluedBehind.has(written.value.toLowerCase().slice(one.length)),
  );
  if (first === undefined) return [];
  const second = written.value.toLowerCase().slice(first.length);
  return [writtenAs([written], at, `${first} ${second}`, [word(first, [written]), word(second, [written])])];
}

/** `pv-factor` for `pv factor`: the words with which a clause begins, with a hyphen between them. */
export function hyphensApart(written: Atom, forms: readonly Form[]): Mend[] {
  const pieces = written.kind === 'word' ? written.value.split('-') : [];
  const isIt = ({ elements }: Form) =>
    pieces.every((piece, i) => {
      const element = elements[i];
      return element?.is === 'word' && element.word === piece;
    });
  if (pieces.length < 2 || !forms.some(isIt)) return [];
  const put = pieces.map((piece) => word(piece, [written]));
  return [writtenAs([written], 0, pieces.join(' '), put)];
}

const gluedBehind: ReadonlySet<string> = new Set(['least', 'most', 'with', 'cut-off']);

/** `=>`, `-->`, `>>` and the like for `to`. */
export function arrow(atoms: readonly Atom[], at: number, words: readonly string[]): Mend[] {
  if (words.length !== 1 || words[0] !== 'to') return [];
  let end = at;
  while (isArrowPiece(atoms[end]) && (end === at || atoms[end]?.leading === '')) end += 1;
  if (end < at + 2) return [];
  const some = atoms.slice(at, end);
  const span = spanOf(some);
  const gaps = [some[0]?.leading === '' ? ' ' : '', atoms[end]?.leading === '' ? ' ' : ''];
  const told = problem('unknown-clause', span, `${quoted(textOf(some))} does not fit here: write “to”.`, [
    replace('Write to', span, gaps.join('to'), true),
  ]);
  return [{ at, remove: some.length, put: [word('to', some)], problem: told }];
}

const isArrowPiece = (atom: Atom | undefined): boolean =>
  atom?.kind === 'equals' || (atom?.kind === 'junk' && /^[-=~>–—−→»]+$/u.test(atom.text));

/** `->` for `to`, `4-pole` for `4 pole`. */
export function insteadOfJunk(atoms: readonly Atom[], at: number, words: readonly string[]): Mend[] {
  const junk = atoms[at] as Atom;
  const next = atoms[at + 1];
  const [only] = /^[&+]$/.test(junk.text) && words.includes('and') ? ['and'] : words.length === 1 ? words : [];
  const mends: Mend[] = [];
  // `way 3: fuse 10 A`: what would stand there stands behind.
  if (only !== undefined && !(next?.kind === 'word' && next.value === only))
    mends.push({
      at,
      remove: 1,
      put: [word(only, [junk])],
      problem: problem('unknown-clause', junk.span, `${quoted(junk.text)} does not fit here: write ${quoted(only)}.`, [
        replace(
          `Write ${only}`,
          junk.span,
          atoms[at + 1]?.leading === '' || junk.leading === '' ? ` ${only} ` : only,
          true,
        ),
      ]),
    });
  mends.push({
    at,
    remove: 1,
    put: [],
    problem: problem('unknown-clause', junk.span, `${quoted(junk.text)} means nothing here: leave it out.`, [
      replace('Leave it out', junk.span, junk.leading === '' && atoms[at + 1]?.leading === '' ? ' ' : '', true),
    ]),
  });
  return mends;
}
