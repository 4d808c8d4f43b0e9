/** A comma or a line end in the middle of a clause, which reads as well without. */
import type { CompiledSpec } from './compiled.ts';
import type { Filler } from './fillers.ts';
import { expectedAfter, type MatchWords } from './match.ts';
import type { Atom } from './tree.ts';

export const isEnd = (atom: Atom | undefined): boolean => atom?.kind === 'terminal' && atom.terminal !== '';

/** `along LOFT, and SHED`: names of a clause are joined with “and” alone. */
export function commaBeforeAnd(
  body: readonly Atom[],
  at: number,
  spec: CompiledSpec,
  words: MatchWords,
): Filler | undefined {
  const [atom, and, behind] = [body[at] as Atom, body[at + 1], body[at + 2]];
  if (and?.kind !== 'word' || and.value !== 'and' || behind?.kind !== 'word') return undefined;
  const start = body.slice(0, at).findLastIndex(({ kind }) => kind === 'comma' || kind === 'line') + 1;
  const [first, ...others] = body.slice(start, at);
  if (first === undefined) return undefined;
  const wanted = expectedAfter(spec.beginningWith(first), [first, ...others], words);
  if (!wanted.some((one) => one.is === 'word' && one.word === 'and')) return undefined;
  return { is: 'within', count: 1, put: [], edits: [{ span: atom.span, newText: and.leading === '' ? ' ' : '' }] };
}

/** `F1:out` and a new line before its `to`. */
export function breakBeforeTo(body: readonly Atom[], at: number): Filler | undefined {
  const [from, to, behind] = [body[at - 1], body[at + 1], body[at + 2]];
  if (from === undefined || !isEnd(from) || to?.kind !== 'word' || to.value !== 'to' || behind === undefined)
    return undefined;
  const edits = [
    { span: { start: from.span.end, end: from.span.end }, newText: ' to' },
    { span: { start: to.span.start, end: behind.span.start }, newText: '' },
  ];
  return { is: 'break', count: 1, put: [], edits };
}
