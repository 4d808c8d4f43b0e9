/** Places in files: from statement-relative spans to absolute ones; and problems at them. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Origin, Place, PlacedProblem } from './model.ts';

export function placeIn(
  origin: { readonly file: { readonly uri: string }; readonly statement: ShapedPlaced },
  span: Span,
): Place {
  const { offset } = origin.statement;
  return { uri: origin.file.uri, span: { start: offset + span.start, end: offset + span.end } };
}

/** Where a statement is named: its first name, else its first word. */
export function headPlace(origin: Origin): Place {
  const { node } = origin.statement;
  return placeIn(origin, node.names[0]?.span ?? node.keyword?.span ?? { start: 0, end: Math.min(1, node.text.length) });
}

export function samePlace(a: Place, b: Place): boolean {
  return a.uri === b.uri && a.span.start === b.span.start && a.span.end === b.span.end;
}

export function problem(
  slug: string,
  place: Place,
  message: string,
  more: Partial<Pick<PlacedProblem, 'subject' | 'figures' | 'fixes' | 'related'>> = {},
): PlacedProblem {
  return {
    slug,
    place,
    message,
    subject: more.subject,
    figures: more.figures ?? {},
    fixes: more.fixes ?? [],
    related: more.related ?? [],
  };
}

/** A fix that puts one text in one place. */
export function fix(title: string, place: Place, newText: string, safe = false): PlacedProblem['fixes'][number] {
  return { title, safe, edits: [{ place, newText }] };
}

/** True when reading the statement itself found something wrong: then what may be missing is not complained of. */
export function isBroken(origin: Origin): boolean {
  return origin.statement.shaped.problems.length > 0;
}
