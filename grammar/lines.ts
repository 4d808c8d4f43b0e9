/** Offsets to lines and characters (UTF-16, from 0) and back. Line ends are `\n`; a `\r` before it belongs to its line end. */
import { type LineBlock, lastUpTo, TextInBlocks } from './text-in-blocks.ts';

export interface Position {
  readonly line: number;
  readonly character: number;
}

/** Of a text in blocks, only those are looked through that were not before. */
export class LineIndex {
  readonly length: number;
  private readonly text: TextInBlocks;
  /** How many lines begin before each block, and in all. */
  private counted: readonly number[] | undefined;
  private lines: number | undefined;
  /** Index of the block whose line was asked for last. */
  private latest = 0;

  constructor(text: string | TextInBlocks) {
    this.text = TextInBlocks.of(text);
    this.length = text.length;
  }

  private get counts(): readonly number[] {
    if (this.counted === undefined) {
      const counts = [0];
      let count = 0;
      for (const block of this.text.blocks) {
        count += block.starts.length;
        counts.push(count);
      }
      this.counted = counts;
    }
    return this.counted;
  }

  private get endsLine(): boolean {
    return this.length === 0 || this.text.charCodeAt(this.length - 1) === 10;
  }

  get lineCount(): number {
    // Behind the last line end there is one more line, which is empty.
    this.lines ??= (this.counts.at(-1) as number) + (this.endsLine ? 1 : 0);
    return this.lines;
  }

  position(offset: number): Position {
    const bounded = Math.max(0, Math.min(offset, this.length));
    if (bounded === this.length && this.endsLine) return { line: this.lineCount - 1, character: 0 };
    const block = this.text.blockAt(bounded);
    const { starts } = this.text.blocks[block] as LineBlock;
    const within = bounded - (this.text.offsets[block] as number);
    const line = lastUpTo(starts, within);
    return { line: (this.counts[block] as number) + line, character: within - (starts[line] as number) };
  }

  /** Offset of a place; beyond the line's or the text's end it is that end. */
  offset({ line, character }: Position): number {
    if (line < 0) return 0;
    if (line >= this.lineCount) return this.length;
    const start = this.lineStart(line);
    const wanted = start + Math.max(0, character);
    if (line + 1 === this.lineCount) return Math.min(wanted, this.length);
    const next = this.lineStart(line + 1);
    const end = next - 2 >= start && this.text.charCodeAt(next - 2) === 13 ? next - 2 : next - 1;
    return Math.min(wanted, end);
  }

  lineStart(line: number): number {
    const { counts, text } = this;
    if (line >= (counts[counts.length - 1] as number)) return this.length;
    let block = this.latest;
    if (line < (counts[block] as number) || line >= (counts[block + 1] as number)) {
      // The last of `counts` is no block's.
      block = lastUpTo(counts, line);
      this.latest = block;
    }
    const start = (text.blocks[block] as LineBlock).starts[line - (counts[block] as number)] as number;
    return (text.offsets[block] as number) + start;
  }
}
