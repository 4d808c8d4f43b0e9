/**
 * A statement as rows of segments of clauses, to be written anew with some of them changed. Rows that are not touched keep
 * every letter; comments stay at their rows, and a row that has nothing left but a comment is that comment.
 */
import { canonicalText } from '../../../grammar/canonical.ts';
import { indent } from '../../../grammar/format-statement.ts';
import type { ClauseNode, ShapedPlaced } from '../../../grammar/shaped.ts';
import type { Atom, Span } from '../../../grammar/tree.ts';
import type { Change } from './patched.ts';

export interface Piece {
  /** Undefined for words that no clause took, and for new ones. */
  readonly clause: ClauseNode | undefined;
  readonly text: string;
}

interface Row {
  /** Where it stands in the statement, line end included; undefined for a new one. */
  readonly at: Span | undefined;
  /** It is as it stands. */
  readonly same: boolean;
  /** The head with its space, or the indent. */
  readonly before: string;
  /** Between commas. */
  readonly segments: readonly (readonly Piece[])[];
  /** A comma at the row's end. */
  readonly comma: boolean;
  /** Behind the last word: space, comment, line end. */
  readonly after: string;
}

export type Sheet = readonly Row[];

export function sheetOf({ node, shaped }: ShapedPlaced): Sheet {
  const { text, atoms } = node;
  const headEnd = Math.max(
    0,
    ...[node.keyword, ...node.names, node.title, wrapped(shaped, node.body)].map((one) => one?.span.end ?? 0),
  );
  const starts = new Map(shaped.clauses.map((clause) => [clause.span.start, clause]));
  const rows: Row[] = [];
  let segments: Piece[][] = [[]];
  let comma = false;
  let from = 0;
  let first: number | undefined;
  let last = headEnd;
  const close = (to: number) => {
    const begin = first ?? Math.min(Math.max(from, rows.length === 0 ? headEnd : from), to);
    rows.push({
      at: { start: from, end: to },
      same: true,
      before: text.slice(from, begin),
      segments: segments.filter((one) => one.length > 0),
      comma,
      after: text.slice(first === undefined ? begin : last, to),
    });
    [segments, comma, first, from, last] = [[[]], false, undefined, to, to];
  };
  for (let i = 0; i < atoms.length; i++) {
    const atom = atoms[i] as Atom;
    if (atom.kind === 'line') close(atom.span.end);
    else if (atom.span.start < headEnd) last = Math.max(last, atom.span.end);
    else if (atom.kind === 'comma') {
      // One behind the name, before anything is said, belongs to the head.
      if (first === undefined) continue;
      segments.push([]);
      comma = true;
      last = atom.span.end;
    } else {
      const clause = starts.get(atom.span.start);
      const end = clause?.span.end ?? atom.span.end;
      segments.at(-1)?.push({ clause, text: text.slice(atom.span.start, end) });
      comma = false;
      first ??= atom.span.start;
      last = end;
      // A clause may go on over a line end, and is one piece all the same.
      while ((atoms[i + 1]?.span.end ?? Number.POSITIVE_INFINITY) <= end) i += 1;
    }
  }
  if (from < text.length || rows.length === 0) close(text.length);
  return rows;
}

function wrapped(shaped: ShapedPlaced['shaped'], body: readonly Atom[]): Atom | undefined {
  return shaped.wrapper === undefined ? undefined : body.find(({ kind }) => kind === 'word');
}

/** Every clause as `change` has it: its words anew, several pieces, or none. */
export function withClauses(sheet: Sheet, change: (piece: Piece) => Piece | readonly Piece[]): Sheet {
  return sheet.map((row) => {
    const segments = row.segments.map((pieces) => pieces.flatMap((piece) => change(piece)));
    const same = segments.every(
      (pieces, i) =>
        pieces.length === row.segments[i]?.length && pieces.every((one, j) => one === row.segments[i]?.[j]),
    );
    return same ? row : { ...row, same: false, segments: segments.filter((one) => one.length > 0) };
  });
}

/** Segments of their own behind the one that a clause stands in. */
export function withBehind(sheet: Sheet, clause: ClauseNode, texts: readonly string[]): Sheet {
  if (texts.length === 0) return sheet;
  return sheet.map((row) => {
    const at = row.segments.findIndex((pieces) => pieces.some((piece) => piece.clause === clause));
    if (at === -1) return row;
    const more = texts.map((text) => [{ clause: undefined, text }]);
    return {
      ...row,
      same: false,
      segments: [...row.segments.slice(0, at + 1), ...more, ...row.segments.slice(at + 1)],
    };
  });
}

/** Rows of their own at the end. */
export function withRows(sheet: Sheet, texts: readonly string[], newline: string): Sheet {
  const ended = sheet.at(-1)?.after.endsWith('\n') === true;
  const rows = texts.map(
    (text): Row => ({
      at: undefined,
      same: false,
      // The last line of a file may have no line end: then what comes behind brings it.
      before: ended ? indent : newline + indent,
      segments: [[{ clause: undefined, text }]],
      comma: false,
      after: ended ? newline : '',
    }),
  );
  return [...sheet, ...rows];
}

/** What makes the statement's text that of the sheet, row by row: of rows that stay nothing is touched. */
export function changesOf({ offset, node: { text } }: ShapedPlaced, sheet: Sheet): Change[] {
  const end = { start: text.length, end: text.length };
  const rows = sheet.map((row, i) => {
    const { at = end, same } = row;
    const own = text.slice(at.start, at.end);
    return { at, own, now: same ? own : textOf(row, i === 0), isNew: row.at === undefined };
  });
  // Where a last row without a line end goes, the one above it is the last.
  const last = rows.findLast(({ isNew }) => !isNew);
  if (last?.now === '' && last.own !== '' && !last.own.endsWith('\n')) {
    const above = rows.findLast((row) => row.at.end <= last.at.start && row.now !== '');
    if (above !== undefined) above.now = above.now.replace(/\r?\n$/u, '');
  }
  return rows.flatMap(({ at, own, now }): Change[] =>
    own === now ? [] : [{ span: { start: offset + at.start, end: offset + at.end }, newText: now }],
  );
}

function textOf(row: Row, first: boolean): string {
  const { before, comma, after } = row;
  const words = textIn(row);
  if (words !== '') return `${before}${words}${comma ? ',' : ''}${after}`;
  if (first) return `${before.trimEnd()}${after}`;
  // A comment is kept on its line; a row with none goes.
  return after.trim() === '' ? '' : `${indent}${after.trimStart()}`;
}

/**
 * The words of a sheet without its comments, row by row: the first goes behind a head. A row that the other sheet of the same
 * statement has no more brings its comment along.
 */
export function rowTexts(sheet: Sheet, other: Sheet = sheet): string[] {
  return sheet
    .map((row, i) => (hasMoved(other[i], row) ? `${textIn(row)}  ${row.after.trim()}`.trimEnd() : textIn(row)))
    .filter((text, i) => i === 0 || text !== '');
}

/** A sheet less the comments of rows that are whole in the other. */
export function withoutMoved(sheet: Sheet, other: Sheet): Sheet {
  return sheet.map((row, i) =>
    hasMoved(row, other[i]) ? { ...row, after: /\r?\n$/u.exec(row.after)?.[0] ?? '' } : row,
  );
}

function hasMoved(from: Row | undefined, to: Row | undefined): boolean {
  return from !== undefined && to !== undefined && textIn(from) === '' && textIn(to) !== '';
}

function textIn({ segments }: Row): string {
  return segments.map((pieces) => pieces.map(({ text }) => text).join(' ')).join(', ');
}

/** The clauses of a sheet without its comments and line ends, segment by segment: for a statement that is like another. */
export function segmentsOf(sheet: Sheet): (readonly Piece[])[] {
  return sheet.flatMap(({ segments }) => segments);
}

/** A clause in plain words, on one line; `instead` has other words for some of its atoms. */
export function wordsOf(
  { node }: ShapedPlaced,
  { span }: ClauseNode,
  instead: (atom: Atom) => string | undefined = () => undefined,
): string {
  let text = '';
  for (const atom of node.atoms) {
    if (atom.kind === 'line' || atom.span.start < span.start || atom.span.end > span.end) continue;
    const words = instead(atom) ?? canonicalText(atom);
    text += text === '' || atom.kind === 'comma' ? words : ` ${words}`;
  }
  return text;
}
