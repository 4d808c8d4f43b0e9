/** Places in files: from statement-relative spans to absolute ones. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Origin, Place, PlacedProblem } from './model.ts';

export function placeIn(origin: { readonly file: { readonly uri: string }; readonly statement: ShapedPlaced }, span: Span): Place {
  const { offset } = origin.statement;
  return { uri: origin.file.uri, span: { start: offset + span.start, end: offset + span.end } };
}

/** Where a statement is named: its first name, else its first word. */
export function headPlace(origin: Origin): Place {
  const { node } = origin.statement;
  return placeIn(origin, node.names[0]?.span ?? node.keyword?.span ?? { start: 0, end: Math.min(1, node.text.length) });
}

export function problem(
  slug: string,
  place: Place,
  message: string,
  more: Partial<Pick<PlacedProblem, 'subject' | 'figures' | 'fixes' | 'related'>> = {},
): PlacedProblem {
  return { slug, place, message, subject: more.subject, figures: more.figures ?? {}, fixes: more.fixes ?? [], related: more.related ?? [] };
}
