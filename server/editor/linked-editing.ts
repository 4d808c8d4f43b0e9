/**
 * Linked editing: while a name is written anew where it is declared, its uses in the file follow. At a use it is not linked:
 * there one may mean another thing. Where another file names it too, rename is the way.
 */
import type { LinkedEditingRanges } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { rangeOf } from './ranges.ts';
import { named, usesOf } from './uses.ts';

/** Clients read this without Unicode classes: whatever cannot be in a name ends it. */
const wordPattern = '[^\\s,:="#/?]+';

export function linkedEditing(
  analysis: Analysis,
  offset: number,
  users: readonly Analysis[] = [],
): LinkedEditingRanges | null {
  const use = named(analysis, offset);
  if (use === undefined || !use.declaration || use.target === 'terminal' || use.target === 'file') return null;
  const uses = usesOf(analysis, use);
  const apart =
    uses.some(({ place }) => place.uri !== analysis.uri) ||
    users.some((user) => usesOf(user, use).some(({ place }) => place.uri !== analysis.uri));
  if (apart || uses.length < 2 || uses.filter(({ declaration }) => declaration).length > 1) return null;
  const spans = uses.map(({ place }) => place.span);
  // Linked words must be equal letter by letter, and a name may be written in two ways of Unicode.
  const written = new Set(spans.map(({ start, end }) => analysis.text.slice(start, end)));
  return written.size > 1 ? null : { ranges: spans.map((span) => rangeOf(analysis.lines, span)), wordPattern };
}
