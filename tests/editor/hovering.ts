/** Hovering over words of a text, as tests do. */
import type { Hover, MarkupContent } from 'vscode-languageserver';
import type { Analysis } from '../../server/analysis.ts';
import { hover } from '../../server/editor/hover.ts';

/** Offset of the `nth` time a word stands in a text, on its own and not within a longer one. */
export function placeOf(text: string, word: string, nth = 1): number {
  let from = -1;
  for (let n = 0; n < nth; ) {
    from = text.indexOf(word, from + 1);
    if (from === -1) throw new Error(`“${word}” stands ${n} times in the text, not ${nth}`);
    const letter = /[\p{L}\p{N}_-]/u;
    const alone = !(letter.test(word[0] ?? '') && letter.test(text[from - 1] ?? ' '));
    const ends = !(letter.test(word.at(-1) ?? '') && letter.test(text[from + word.length] ?? ' '));
    if (alone && ends) n += 1;
  }
  return from;
}

export interface Read {
  readonly value: string;
  /** The words told about. */
  readonly words: string;
}

export function read(analysis: Analysis, at: number, markdown = false): Read | undefined {
  const told: Hover | null = hover(analysis, at, { markdown });
  if (told === null) return undefined;
  const { kind, value } = told.contents as MarkupContent;
  if (kind !== (markdown ? 'markdown' : 'plaintext')) throw new Error(`asked for markdown ${markdown}, came ${kind}`);
  const { start, end } = told.range ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  return { value, words: analysis.text.slice(analysis.lines.offset(start), analysis.lines.offset(end)) };
}

export interface Table {
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** The tables of a Markdown text. */
export function tablesIn(markdown: string): Table[] {
  return markdown.split('\n\n').flatMap((block): Table[] => {
    if (!block.startsWith('| ')) return [];
    const [head = [], , ...rows] = block.split('\n').map((line) =>
      line
        .split(/(?<!\\)\|/)
        .slice(1, -1)
        .map((cell) => cell.trim().replace(/\\(.)/g, '$1')),
    );
    return [{ head, rows }];
  });
}
