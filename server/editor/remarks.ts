/** Where remarks stand: what looks like one within quotes is none. */
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { statementBefore } from './at.ts';

/** A line without its line end. */
export function lineSpan({ text, lines }: Pick<Analysis, 'text' | 'lines'>, line: number): Span {
  const start = lines.lineStart(line);
  const next = line + 1 < lines.lineCount ? lines.lineStart(line + 1) - 1 : text.length;
  return { start, end: next > start && text.charAt(next - 1) === '\r' ? next - 1 : next };
}

/** The remark of a line, from its `#` to the line’s end; undefined where it has none. */
export function remarkOn(analysis: Analysis, line: number): Span | undefined {
  const { start, end } = lineSpan(analysis, line);
  const statement = statementBefore(analysis, end);
  if (statement !== undefined && statement.offset + statement.node.text.length > start) {
    for (const { span } of statement.node.comments) {
      const at = statement.offset + span.start;
      if (start <= at && at < end) return { start: at, end };
    }
    return undefined;
  }
  const written = analysis.text.slice(start, end);
  const at = start + written.length - written.trimStart().length;
  return analysis.text.charAt(at) === '#' ? { start: at, end } : undefined;
}
