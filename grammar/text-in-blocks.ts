/**
 * The text of a document in blocks of whole lines. An edit makes the block anew that it lies in, and shares all others with the
 * text before it. In one string every key would copy all of a long text, into memory that the machine hands out page by page and
 * takes back with the next key: half the time of an undo in 20,000 lines.
 */

/** What a text is asked when it is read: a string, or blocks. */
export interface SourceText {
  readonly length: number;
  slice(start?: number, end?: number): string;
  charAt(at: number): string;
  charCodeAt(at: number): number;
  indexOf(search: '\n', from?: number): number;
  toString(): string;
}

/** Characters of a block, up to the end of the line that they end in. */
const usualSize = 8192;

/** Some whole lines of a text; only the last block of a text may end within a line. Offsets count from its first character. */
export class LineBlock {
  private lineStarts: readonly number[] | undefined;
  private fed: LineBlock | undefined;

  constructor(readonly text: string) {}

  /** Where its lines begin; behind a line end at its end begins none of its own. */
  get starts(): readonly number[] {
    if (this.lineStarts === undefined) {
      const starts = this.text === '' ? [] : [0];
      for (let at = this.text.indexOf('\n'); at !== -1; at = this.text.indexOf('\n', at + 1)) starts.push(at + 1);
      if (starts.length > 1 && starts.at(-1) === this.text.length) starts.pop();
      this.lineStarts = starts;
    }
    return this.lineStarts;
  }

  /** The same as `withLineFeeds` has it; itself where there is nothing to change. */
  get withLineFeeds(): LineBlock {
    if (this.fed === undefined) {
      const text = withLineFeeds(this.text);
      this.fed = text === this.text ? this : new LineBlock(text);
    }
    return this.fed;
  }
}

/**
 * A text of the same length with `\n` for every `\r` that stands alone. To the protocol that ends a line too: so places are the
 * same, and whoever reads meets one line end less.
 */
export function withLineFeeds(text: string): string {
  return text.includes('\r') ? text.replace(/\r(?!\n)/g, '\n') : text;
}

export class TextInBlocks implements SourceText {
  /** Offset of each block. */
  readonly offsets: readonly number[];
  readonly length: number;
  /** Index of the block that was asked last: most questions are about one place. */
  private latest = 0;

  private constructor(
    readonly blocks: readonly LineBlock[],
    /** All of it in one string, where that has been made. */
    private whole: string | undefined,
  ) {
    const offsets: number[] = [];
    let length = 0;
    for (const { text } of blocks) {
      offsets.push(length);
      length += text.length;
    }
    this.offsets = offsets;
    this.length = length;
  }

  static of(text: string | TextInBlocks): TextInBlocks {
    return typeof text === 'string' ? new TextInBlocks(parted(text), text) : text;
  }

  /** The text with what stands from `start` to `end` replaced. */
  edited(start: number, end: number, put: string): TextInBlocks {
    const first = this.blockAt(start);
    let last = this.blockAt(end);
    const startOf = (index: number) => this.offsets[index] as number;
    let text = this.textOf(first).slice(0, start - startOf(first)) + put + this.textOf(last).slice(end - startOf(last));
    // Lines stay whole, and blocks do not become crumbs.
    while (last + 1 < this.blocks.length && (!text.endsWith('\n') || text.length < usualSize / 2)) {
      last += 1;
      text += this.textOf(last);
    }
    return new TextInBlocks(
      [...this.blocks.slice(0, first), ...parted(text), ...this.blocks.slice(last + 1)],
      undefined,
    );
  }

  /** The same as `withLineFeeds` has it, with all blocks shared that have nothing to change. */
  withLineFeeds(): TextInBlocks {
    if (this.blocks.every((block) => block.withLineFeeds === block)) return this;
    return new TextInBlocks(
      this.blocks.map((block) => block.withLineFeeds),
      undefined,
    );
  }

  slice(start = 0, end = this.length): string {
    const [from, to] = [this.bounded(start), this.bounded(end)];
    if (from >= to) return '';
    if (this.whole !== undefined) return this.whole.slice(from, to);
    const first = this.blockAt(from);
    let offset = this.offsets[first] as number;
    let slice = this.textOf(first).slice(from - offset, to - offset);
    for (let index = first + 1; slice.length < to - from; index += 1) {
      offset = this.offsets[index] as number;
      slice += this.textOf(index).slice(0, to - offset);
    }
    return slice;
  }

  charAt(at: number): string {
    const block = this.blockAt(at);
    return this.textOf(block).charAt(at - (this.offsets[block] as number));
  }

  charCodeAt(at: number): number {
    const block = this.blockAt(at);
    return this.textOf(block).charCodeAt(at - (this.offsets[block] as number));
  }

  indexOf(search: '\n', from = 0): number {
    for (let index = this.blockAt(from); index < this.blocks.length; index += 1) {
      const offset = this.offsets[index] as number;
      const found = this.textOf(index).indexOf(search, from - offset);
      if (found !== -1) return offset + found;
    }
    return -1;
  }

  /** Offset at which the line begins that a place is in. */
  lineStart(offset: number): number {
    const block = this.blockAt(offset);
    const start = this.offsets[block] as number;
    return offset === start ? start : start + this.textOf(block).lastIndexOf('\n', offset - start - 1) + 1;
  }

  toString(): string {
    this.whole ??= this.blocks.map(({ text }) => text).join('');
    return this.whole;
  }

  /** Whether it says the same, letter for letter. */
  says(other: string | TextInBlocks): boolean {
    if (this === other) return true;
    if (this.length !== other.length) return false;
    return typeof other === 'string' ? String(this) === other : commonStart(this, other) === this.length;
  }

  /** Index of the block in which a character stands; that of the last for the text's end. */
  blockAt(offset: number): number {
    const { offsets, latest } = this;
    if (offset >= (offsets[latest] as number) && offset < (offsets[latest + 1] ?? Number.POSITIVE_INFINITY))
      return latest;
    this.latest = lastUpTo(offsets, offset);
    return this.latest;
  }

  private textOf(index: number): string {
    return (this.blocks[index] as LineBlock).text;
  }

  /** As strings have it: from the end where it is negative, and within the text. */
  private bounded(at: number): number {
    return Math.max(0, Math.min(at < 0 ? this.length + at : at, this.length));
  }
}

/** A text as blocks of about the usual size; one at least. */
function parted(text: string): LineBlock[] {
  const blocks: LineBlock[] = [];
  let from = 0;
  while (text.length - from > 2 * usualSize) {
    const newline = text.indexOf('\n', from + usualSize);
    if (newline === -1 || newline + 1 === text.length) break;
    blocks.push(new LineBlock(text.slice(from, newline + 1)));
    from = newline + 1;
  }
  blocks.push(new LineBlock(text.slice(from)));
  return blocks;
}

/** Index of the last of some rising numbers that is no more than `most`; 0 when none is. */
export function lastUpTo(numbers: readonly number[], most: number): number {
  let low = 0;
  let high = numbers.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((numbers[middle] as number) <= most) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Characters compared at once: slices are cheap and compared by the machine. */
const atOnce = 1024;

/** How many characters two texts have in common from their beginning. */
export function commonStart(a: TextInBlocks, b: TextInBlocks): number {
  let at = 0;
  for (let i = 0; i < a.blocks.length && a.blocks[i] === b.blocks[i]; i++) at += (a.blocks[i] as LineBlock).text.length;
  for (;;) {
    const [left, right] = [a.slice(at, at + atOnce), b.slice(at, at + atOnce)];
    if (left !== right || left === '') {
      let same = 0;
      while (same < left.length && left.charCodeAt(same) === right.charCodeAt(same)) same += 1;
      return at + same;
    }
    at += left.length;
  }
}

/** How many characters two texts have in common up to their end, and no more than `most`. */
export function commonEnd(a: TextInBlocks, b: TextInBlocks, most: number): number {
  let size = 0;
  for (let i = 1; i <= a.blocks.length && a.blocks.at(-i) === b.blocks.at(-i); i++) {
    const { length } = (a.blocks.at(-i) as LineBlock).text;
    if (size + length > most) break;
    size += length;
  }
  const block = (text: TextInBlocks) => text.slice(text.length - Math.min(size + atOnce, most), text.length - size);
  for (;;) {
    const [left, right] = [block(a), block(b)];
    if (left !== right || left === '') {
      let same = 0;
      while (
        same < left.length &&
        left.charCodeAt(left.length - 1 - same) === right.charCodeAt(right.length - 1 - same)
      )
        same += 1;
      return size + same;
    }
    size += left.length;
  }
}
