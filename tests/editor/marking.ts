/** Texts with their expected ranges marked: `«` and `»` around each, `|` where the pointer is. */
import type { Range } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';

export interface Marked {
  readonly text: string;
  /** Of the first `|`; -1 where there is none. */
  readonly offset: number;
  readonly spans: readonly { readonly start: number; readonly end: number }[];
  /** The words of a range. */
  words(range: Range): string;
  /** The text with the marks around the ranges given, to compare with what was written. */
  with(ranges: readonly Range[]): string;
}

export function marked(source: string): Marked {
  let text = '';
  let offset = -1;
  const spans: { start: number; end: number }[] = [];
  const open: number[] = [];
  for (const letter of source) {
    if (letter === '«') open.push(text.length);
    else if (letter === '»') spans.push({ start: open.pop() ?? 0, end: text.length });
    else if (letter === '|' && offset < 0) offset = text.length;
    else text += letter;
  }
  const document = TextDocument.create('', '', 0, text);
  return {
    text,
    offset,
    spans: spans.sort((a, b) => a.start - b.start || b.end - a.end),
    words: ({ start, end }) => text.slice(document.offsetAt(start), document.offsetAt(end)),
    with(ranges) {
      const marks = ranges.flatMap(({ start, end }) => [
        { at: document.offsetAt(start), mark: '«' },
        { at: document.offsetAt(end), mark: '»' },
      ]);
      return marks
        .sort((a, b) => b.at - a.at || (a.mark < b.mark ? -1 : 1))
        .reduce((done, { at, mark }) => done.slice(0, at) + mark + done.slice(at), text);
    },
  };
}
