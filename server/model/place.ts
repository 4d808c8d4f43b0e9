/** Places in files: from statement-relative spans to absolute ones; and problems at them. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Origin, Place, PlacedProblem } from './model.ts';

/**
 * Words of a statement, wherever it stands now: when an edit further up moves the statement, its places move along, so that
 * what was worked out of it need not be worked out again.
 */
class PlaceInStatement implements Place {
  readonly #statement: ShapedPlaced;
  readonly #start: number;
  readonly #end: number;

  constructor(
    readonly uri: string,
    statement: ShapedPlaced,
    start: number,
    end: number,
  ) {
    this.#statement = statement;
    this.#start = start;
    this.#end = end;
  }

  get span(): Span {
    const { offset } = this.#statement;
    return { start: offset + this.#start, end: offset + this.#end };
  }

  get statement(): ShapedPlaced {
    return this.#statement;
  }

  get end(): Place {
    return new PlaceInStatement(this.uri, this.#statement, this.#end, this.#end);
  }

  /** For reports: a place is its file and span. */
  toJSON(): Place {
    return { uri: this.uri, span: this.span };
  }
}

export function placeIn(
  origin: { readonly file: { readonly uri: string }; readonly statement: ShapedPlaced },
  span: Span,
): Place {
  return new PlaceInStatement(origin.file.uri, origin.statement, span.start, span.end);
}

/** Behind the last character of a place. */
export function endOf(place: Place): Place {
  if (place instanceof PlaceInStatement) return place.end;
  return { uri: place.uri, span: { start: place.span.end, end: place.span.end } };
}

/** The statement that a place stands in; undefined for one that no statement holds, such as the start of an empty file. */
export function statementAt(place: Place): ShapedPlaced | undefined {
  return place instanceof PlaceInStatement ? place.statement : undefined;
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
