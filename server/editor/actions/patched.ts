/**
 * A text with changes made to it one after the other, which in the end knows the changes from the first text to the last:
 * a second step (the formatter's, say) may touch words that the first put in.
 */
import { formatEdits } from '../../../grammar/format.ts';
import { ParseCache, parseDocument, type ShapedTree } from '../../../grammar/parse.ts';
import type { Span } from '../../../grammar/tree.ts';
import type { Analysis } from '../../analysis.ts';
import { vocabulary } from '../../kinds/vocabulary.ts';
import { keptWith } from '../../model/lazily.ts';
import type { Edit } from '../../rules/rule.ts';

export interface Change {
  readonly span: Span;
  readonly newText: string;
}

/** A stretch of the first text, or words that are new. */
type Piece = Span | string;

const lengthOf = (piece: Piece) => (typeof piece === 'string' ? piece.length : piece.end - piece.start);

export class Patched {
  private pieces: readonly Piece[];
  text: string;

  constructor(private readonly first: string) {
    this.pieces = [{ start: 0, end: first.length }];
    this.text = first;
  }

  /** Changes of the text as it is now; they may touch and must not overlap. */
  apply(changes: readonly Change[]): this {
    const pieces: Piece[] = [];
    let at = 0;
    for (const { span, newText } of [...changes].sort(
      (a, b) => a.span.start - b.span.start || a.span.end - b.span.end,
    )) {
      pieces.push(...this.slice(at, span.start));
      if (newText !== '') pieces.push(newText);
      at = span.end;
    }
    pieces.push(...this.slice(at, this.text.length));
    this.pieces = pieces;
    this.text = pieces.map((one) => (typeof one === 'string' ? one : this.first.slice(one.start, one.end))).join('');
    return this;
  }

  /** The same stretch of the first text, if it stands as it did. */
  unchanged(span: Span): Span | undefined {
    let at = 0;
    for (const piece of this.pieces) {
      const end = at + lengthOf(piece);
      if (typeof piece !== 'string' && at <= span.start && span.end <= end)
        return { start: piece.start + span.start - at, end: piece.start + span.end - at };
      at = end;
    }
    return undefined;
  }

  /** From the first text to the one that is there now. */
  changes(): Change[] {
    const changes: Change[] = [];
    let [at, words] = [0, ''];
    const close = (to: number) => {
      if (to > at || words !== '') changes.push({ span: { start: at, end: to }, newText: words });
    };
    for (const piece of this.pieces) {
      if (typeof piece === 'string') words += piece;
      else {
        close(piece.start);
        [at, words] = [piece.end, ''];
      }
    }
    close(this.first.length);
    return changes;
  }

  private slice(from: number, to: number): Piece[] {
    const pieces: Piece[] = [];
    let at = 0;
    for (const piece of this.pieces) {
      const start = Math.max(from - at, 0);
      const end = Math.min(to - at, lengthOf(piece));
      if (start < end)
        pieces.push(
          typeof piece === 'string' ? piece.slice(start, end) : { start: piece.start + start, end: piece.start + end },
        );
      at += lengthOf(piece);
    }
    return pieces;
  }
}

/** Changes of the analysed file as edits, with the lines that they make untidy tidied; what was untidy before stays so. */
export function tidied({ uri, text, tree }: Analysis, changes: readonly Change[]): Edit[] {
  const patched = new Patched(String(text)).apply(changes);
  const wasUntidy = (span: Span) => {
    const before = patched.unchanged(lineOf(patched.text, span));
    return before !== undefined && untidyLines(tree).some(({ start, end }) => start < before.end && before.start < end);
  };
  const format = formatEdits(parseDocument(patched.text, vocabulary, ParseCache.beside(tree))).filter(
    ({ span }) => !wasUntidy(span),
  );
  return patched
    .apply(format)
    .changes()
    .map(({ span, newText }) => ({ place: { uri, span }, newText }));
}

const untidyLines = keptWith((tree: ShapedTree) => {
  const text = String(tree.text);
  return formatEdits(tree).map(({ span }) => lineOf(text, span));
});

/** The whole lines that a stretch stands in. */
function lineOf(text: string, { start, end }: Span): Span {
  const from = text.lastIndexOf('\n', start - 1) + 1;
  const next = text.indexOf('\n', Math.max(start, end - 1));
  return { start: from, end: next === -1 ? text.length : next + 1 };
}
