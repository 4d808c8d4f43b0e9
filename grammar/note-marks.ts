/** What other languages begin a comment with, where a note was meant. */
import { insert, problem, quoted, replace } from './phrases.ts';
import type { Atom, Problem, Span, StatementNode } from './tree.ts';

/** At a line's beginning. */
const leads = /^(?:\/[/*]+|--+|;+|%+|'|<!--)/;
/** Behind other words of a line: `;` only where a space is before it, since it parts clauses too. */
const follows = /^(?:\/[/*]+|--+|;+|<!--|#)/;

/** The mark that a line begins with at `start`. */
export function leadingMark(text: string, start: number): Problem | undefined {
  const [mark = ''] = leads.exec(text.slice(start)) ?? [];
  return mark === '' ? undefined : instead('unknown-statement', { start, end: start + mark.length }, mark);
}

const instead = (slug: Problem['slug'], place: Span, mark: string): Problem =>
  problem(slug, place, `A note begins with #, not with ${quoted(mark)}.`, [replace('Write #', place, '#', false)]);

/** A mark behind a statement's words: its problem, and how far the note goes. */
export interface TrailingNote {
  readonly span: Span;
  readonly problem: Problem;
}

/** Marks within a statement, the first of each line. */
export function trailingNotes({ text, body }: StatementNode): TrailingNote[] {
  const notes: TrailingNote[] = [];
  let end = -1;
  for (const { kind, span, leading } of body as readonly Atom[]) {
    if (kind !== 'junk' || span.start < end) continue;
    const [mark = ''] = follows.exec(text.slice(span.start)) ?? [];
    if (mark === '' || (mark !== '#' && leading === '')) continue;
    const newline = text.indexOf('\n', span.start);
    end = newline === -1 ? text.length : newline;
    const place = { start: span.start, end: span.start + mark.length };
    const told =
      mark === '#'
        ? problem('unknown-clause', place, 'A note has a space before its #.', [
            insert('Put a space before it', place.start, ' ', true),
          ])
        : instead('unknown-clause', place, mark);
    notes.push({ span: { start: span.start, end }, problem: told });
  }
  return notes;
}
