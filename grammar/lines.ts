/** Offsets to lines and characters (UTF-16, from 0) and back. Line ends are `\n`; a `\r` before it belongs to its line end. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export class LineIndex {
  private readonly starts: number[];
  readonly length: number;

  constructor(private readonly text: string) {
    const starts = [0];
    for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
    this.starts = starts;
    this.length = text.length;
  }

  get lineCount(): number {
    return this.starts.length;
  }

  position(offset: number): Position {
    const bounded = Math.max(0, Math.min(offset, this.length));
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.starts[middle] ?? 0) <= bounded) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: bounded - (this.starts[low] ?? 0) };
  }

  /** Offset of a place; beyond the line's or the text's end it is that end. */
  offset({ line, character }: Position): number {
    if (line < 0) return 0;
    const start = this.starts[line];
    if (start === undefined) return this.length;
    const next = this.starts[line + 1];
    if (next === undefined) return Math.min(start + Math.max(0, character), this.length);
    const end = next - 2 >= start && this.text.charAt(next - 2) === '\r' ? next - 2 : next - 1;
    return Math.min(start + Math.max(0, character), end);
  }

  lineStart(line: number): number {
    return this.starts[line] ?? this.length;
  }
}
