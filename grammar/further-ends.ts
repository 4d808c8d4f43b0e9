/** More ends than a core has: `F1:out to L1:+ and L2:+`, `L1:- and L2:- to NEG`, `F1:out to L1:+ to L2:+`, `F1:out to L1:+, L2:+`. */
import { type Form, openingTypes } from './forms.ts';
import type { Leftover, Surroundings } from './leftover.ts';
import { problem, quoted } from './phrases.ts';
import type { Atom, Problem } from './tree.ts';

export const takesEnds = (form: Form): boolean => openingTypes(form).includes('end');

export function furtherEnd(leftover: Leftover, { spec }: Surroundings): Problem | undefined {
  if (!spec.open.some(takesEnds)) return undefined;
  const behindEnds = spec.forms.some((form) => form.clause === leftover.previous?.spec && takesEnds(form));
  const found = (behindEnds ? behindAPair(leftover) : undefined) ?? beforeTo(leftover);
  if (found === undefined) return undefined;
  const [first, end] = found;
  return problem(
    'unknown-clause',
    { start: first.span.start, end: end.span.end },
    `A core leads from one terminal to one other: give ${quoted(end.text)} a core or a run of its own.`,
  );
}

/** The word that joins it, or the end itself where a comma does, and the end that is too much. */
type Found = readonly [first: Atom, end: Atom];

function behindAPair({ atoms: unread, segment: { atoms }, from }: Leftover): Found | undefined {
  const [first, second] = atoms.slice(from, from + 2);
  if (first === undefined) return undefined;
  if (isWord(first, 'and') || isWord(first, 'to')) return isEnd(second) ? [first, second] : undefined;
  return first.kind === 'terminal' && unread.length === 1 ? [first, first] : undefined;
}

function beforeTo({ segment: { atoms }, from, failure }: Leftover): Found | undefined {
  for (const at of [from + (failure?.at ?? 0), from + 1]) {
    const [before, and, end, to] = atoms.slice(at - 1, at + 3);
    if (at > 0 && and !== undefined && isWord(and, 'and') && isEnd(before) && isEnd(end) && isWord(to, 'to'))
      return [and, end];
  }
  return undefined;
}

const isWord = (atom: Atom | undefined, value: string): boolean => atom?.kind === 'word' && atom.value === value;

const isEnd = (atom: Atom | undefined): atom is Atom =>
  atom?.kind === 'terminal' || (atom?.kind === 'word' && atom.value !== 'to' && atom.value !== 'and');
