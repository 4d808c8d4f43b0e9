/**
 * Splitting a text into statements and the gaps between them, one linear pass over lines before any lexing (looking ahead
 * at every new line would be quadratic over blocks of comments).
 */

export interface Chunk {
  readonly kind: 'statement' | 'gap';
  readonly start: number;
  readonly end: number;
  readonly line: number;
}

const blankOrComment = /^[^\S\n]*(?:#|\r?$)/;
const space = /\s/;

/**
 * A statement begins at a character at the margin that is neither white space nor `#`, or at an indented line that
 * `opensStatement` takes for one; it goes on over indented lines, and over blank and comment lines between them. Blank and
 * comment lines after its last line are a gap. Chunks lie end to end and cover the text.
 */
export function splitStatements(text: string, opensStatement: (line: string) => boolean): Chunk[] {
  const chunks: Chunk[] = [];
  let gapStart = 0;
  let gapLine = 0;
  let start = -1;
  let startLine = 0;
  let end = 0;
  let endLine = 0;
  const close = () => {
    if (start < 0) return;
    chunks.push({ kind: 'statement', start, end, line: startLine });
    gapStart = end;
    gapLine = endLine;
    start = -1;
  };
  let line = 0;
  for (let at = 0; at < text.length; line++) {
    const newline = text.indexOf('\n', at);
    const next = newline === -1 ? text.length : newline + 1;
    const lineText = text.slice(at, newline === -1 ? text.length : newline);
    // A byte order mark is white space to a person.
    const content = at === 0 && lineText.startsWith('\uFEFF') ? lineText.slice(1) : lineText;
    if (!blankOrComment.test(content)) {
      const indented = space.test(content.charAt(0));
      if (start < 0 || !indented || opensStatement(content)) {
        close();
        const begin = at + (lineText.length - content.length);
        if (begin > gapStart) chunks.push({ kind: 'gap', start: gapStart, end: begin, line: gapLine });
        start = begin;
        startLine = line;
      }
      // The line end after a statement's last line is its own: the next line starts clean.
      end = next;
      endLine = line + 1;
    }
    at = next;
  }
  close();
  if (gapStart < text.length) chunks.push({ kind: 'gap', start: gapStart, end: text.length, line: gapLine });
  return chunks;
}
