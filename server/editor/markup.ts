/**
 * Text for people, in pieces: one writing for Markdown and one for clients that show plain text. Whatever comes from the
 * spec goes through here and cannot break the Markdown around it.
 */
import { type MarkupContent, MarkupKind } from 'vscode-languageserver';

export type Inline = string | { readonly bold: string } | { readonly code: string } | { readonly quiet: string };

export type Line = Inline | readonly Inline[];

/** SVG, and its words for those who cannot see it. */
export interface Picture {
  readonly svg: string;
  readonly words: string;
}

export type Block =
  | { readonly is: 'line'; readonly line: Line }
  | { readonly is: 'list'; readonly lines: readonly Line[] }
  | { readonly is: 'table'; readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] }
  | { readonly is: 'spec'; readonly text: string }
  | { readonly is: 'rule' }
  /** A drawing, made for clients that show one alone; undefined where it would be too much. */
  | { readonly is: 'picture'; readonly draw: () => Picture | undefined }
  /** Text that is Markdown already: a finding's page. */
  | { readonly is: 'markdown'; readonly text: string };

export const line = (...inline: Inline[]): Block => ({ is: 'line', line: inline });
export const list = (lines: readonly Line[]): Block[] => (lines.length === 0 ? [] : [{ is: 'list', lines }]);
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): Block[] =>
  rows.length === 0 ? [] : [{ is: 'table', head, rows }];
export const spec = (text: string): Block => ({ is: 'spec', text });
export const bold = (text: string): Inline => ({ bold: text });
export const code = (text: string): Inline => ({ code: text });
export const quiet = (text: string): Inline => ({ quiet: text });

/** Characters that Markdown would take for its own. */
export function escapeMarkdown(text: string): string {
  return text.replace(/[\\`*_{}[\]<>|#~]/g, '\\$&').replaceAll(/\s*\n\s*/g, ' ');
}

const pieces = (line: Line): readonly Inline[] =>
  Array.isArray(line) ? (line as readonly Inline[]) : [line as Inline];

function markdownLine(line: Line): string {
  return pieces(line)
    .map((piece) => {
      if (typeof piece === 'string') return escapeMarkdown(piece);
      if ('bold' in piece) return `**${escapeMarkdown(piece.bold)}**`;
      if ('quiet' in piece) return `*${escapeMarkdown(piece.quiet)}*`;
      const fence = '`'.repeat(Math.max(0, ...[...piece.code.matchAll(/`+/g)].map(([run]) => run.length)) + 1);
      return `${fence}${piece.code.replaceAll('\n', ' ')}${fence}`;
    })
    .join('');
}

function picture(drawn: Picture | undefined): string {
  if (drawn === undefined) return '';
  return `![${escapeMarkdown(drawn.words)}](data:image/svg+xml;base64,${base64(drawn.svg)})`;
}

function base64(text: string): string {
  return btoa(Array.from(new TextEncoder().encode(text), (byte) => String.fromCharCode(byte)).join(''));
}

function plainLine(line: Line): string {
  return pieces(line)
    .map((piece) => (typeof piece === 'string' ? piece : Object.values(piece).join('')))
    .join('');
}

function markdownBlock(block: Block): string {
  switch (block.is) {
    case 'line':
      return markdownLine(block.line);
    case 'list':
      return block.lines.map((one) => `- ${markdownLine(one)}`).join('\n');
    case 'table': {
      const figures = block.head.map(
        (_, column) => column > 0 && block.rows.every((row) => /^$|^[-−]?\d/.test(row[column] ?? '')),
      );
      const row = (cells: readonly string[]) =>
        `| ${block.head.map((_, column) => escapeMarkdown(cells[column] ?? '')).join(' | ')} |`;
      return [
        row(block.head),
        `|${figures.map((right) => (right ? ' --: ' : ' --- ')).join('|')}|`,
        ...block.rows.map(row),
      ].join('\n');
    }
    case 'spec':
      return `\`\`\`ampscribe\n${block.text.replaceAll('```', '` ` `')}\n\`\`\``;
    case 'picture':
      return picture(block.draw());
    case 'rule':
      return '---';
    case 'markdown':
      return block.text;
  }
}

function plainBlock(block: Block): string {
  switch (block.is) {
    case 'line':
      return plainLine(block.line);
    case 'list':
      return block.lines.map((one) => `- ${plainLine(one)}`).join('\n');
    case 'table': {
      const rows = [block.head, ...block.rows];
      const widths = block.head.map((_, column) => Math.max(...rows.map((row) => (row[column] ?? '').length)));
      return rows
        .map((row) =>
          widths
            .map((width, column) => (row[column] ?? '').padEnd(width))
            .join('  ')
            .trimEnd(),
        )
        .join('\n');
    }
    case 'spec':
      return block.text;
    case 'picture':
      return '';
    case 'rule':
      return '—';
    case 'markdown':
      return block.text.replace(/[*`]/g, '');
  }
}

/** Pictures are left out where the client shows none: what they tell stands in words beside them. */
export function render(blocks: readonly Block[], markdown: boolean, pictures = false): MarkupContent {
  const shown = pictures ? blocks : blocks.filter(({ is }) => is !== 'picture');
  const written = shown.map(markdown ? markdownBlock : plainBlock).filter((text) => text !== '');
  return { kind: markdown ? MarkupKind.Markdown : MarkupKind.PlainText, value: written.join('\n\n') };
}
