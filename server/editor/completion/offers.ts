/** What is offered, in plain terms, and how it becomes an item of the protocol: edits, spacing, order, each label once. */
import {
  type CompletionItem,
  CompletionItemKind,
  InsertTextFormat,
  type MarkupContent,
  type TextEdit,
} from 'vscode-languageserver';
import type { ShapedPlaced } from '../../../grammar/shaped.ts';
import type { Span } from '../../../grammar/tree.ts';
import type { Analysis } from '../../analysis.ts';
import { above } from '../actions/statements.ts';
import { type Block, render } from '../markup.ts';
import { rangeOf } from '../ranges.ts';
import type { Context } from './context.ts';
import { type Replaced, replacedBy, textOf } from './replaced.ts';

export interface Offer {
  readonly label: string;
  readonly kind: CompletionItemKind;
  /** One line in plain words. */
  readonly detail?: string | undefined;
  /** Told beside the list. The same array for the same clause, so that it is written out once. */
  readonly documentation?: readonly Block[] | undefined;
  /** What is written; the label when unsaid. */
  readonly text?: string;
  /** What is written where the editor knows placeholders. */
  readonly snippet?: string;
  /** What the editor compares with what is typed; the label when unsaid. */
  readonly filter?: string;
  /** What is replaced, up to the end of the figure that stands there; the word at the pointer when unsaid. */
  readonly replace?: Span;
  /** A comma comes before it, behind what stands there. */
  readonly comma?: boolean;
  /** A line that comes with it above the statement: what is named here is declared there. */
  readonly above?: string;
  /** Written without a space before it, also behind a number: the sign of an angle. */
  readonly tight?: boolean;
}

export const kinds = CompletionItemKind;

/** Items in the order of their offers. Of several with one label the first stays. */
export function itemsOf(context: Context, offers: readonly Offer[]): CompletionItem[] {
  const seen = new Set<string>();
  const items: CompletionItem[] = [];
  const replaced = replacedBy(context, offers);
  for (const offer of offers) {
    if (seen.has(offer.label)) continue;
    seen.add(offer.label);
    items.push(itemOf(context, offer, replaced(offer), items.length));
  }
  return items;
}

function itemOf(context: Context, offer: Offer, replaced: Replaced, index: number): CompletionItem {
  const { analysis, options } = context;
  const { label, kind, detail, documentation, snippet, filter = label } = offer;
  const { span, same } = replaced;
  const asSnippet = same === undefined && options.snippets && snippet !== undefined;
  const written = same ?? spaced(context, offer, replaced, asSnippet ? snippet : textOf(offer));
  return {
    label,
    kind,
    sortText: String(index).padStart(4, '0'),
    filterText: filter,
    textEdit: { range: rangeOf(analysis.lines, span), newText: written },
    insertTextFormat: asSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    ...(detail === undefined ? {} : { detail }),
    ...(documentation === undefined || documentation.length === 0
      ? {}
      : { documentation: told(documentation, options.markdown) }),
    ...besides(context, same === undefined ? offer : { ...offer, comma: false }),
  };
}

/** With the digits that stay before it, and a space wherever it would run into what stands beside it. */
function spaced({ analysis: { text } }: Context, { tight }: Offer, { span, keeps }: Replaced, written: string): string {
  const before = keeps === '' ? text.slice(Math.max(0, span.start - 1), span.start) : keeps;
  const gap = tight === true || /^\s?$/u.test(before) ? '' : ' ';
  // In front of another word, with nothing typed, the offer is put in and replaces nothing.
  const behind = /^[\p{L}\p{N}"?]/u.test(text.slice(span.end, span.end + 2)) ? ' ' : '';
  return `${keeps}${gap}${written}${behind}`;
}

/** What is written elsewhere with it: the comma that was missing, the line above. */
function besides(context: Context, { comma, above }: Offer): Pick<CompletionItem, 'additionalTextEdits'> {
  const { analysis, at } = context;
  if (at.statement === undefined || (comma !== true && above === undefined)) return {};
  return {
    additionalTextEdits: [
      ...(above === undefined ? [] : [lineAbove(analysis, at.statement, above)]),
      ...(comma === true ? [commaEdit(context)] : []),
    ],
  };
}

function lineAbove(analysis: Analysis, statement: ShapedPlaced, line: string): TextEdit {
  const { span, newText } = above(analysis, statement, [line]);
  return { range: rangeOf(analysis.lines, span), newText };
}

function commaEdit({ analysis, at }: Context): TextEdit {
  const end = analysis.text.slice(0, at.replace.start).trimEnd().length;
  return { range: rangeOf(analysis.lines, { start: end, end }), newText: ',' };
}

const written = new WeakMap<readonly Block[], Map<boolean, MarkupContent>>();

function told(blocks: readonly Block[], markdown: boolean): MarkupContent {
  let both = written.get(blocks);
  if (both === undefined) {
    both = new Map();
    written.set(blocks, both);
  }
  let content = both.get(markdown);
  if (content === undefined) {
    content = render(blocks, markdown);
    both.set(markdown, content);
  }
  return content;
}

/** Text in a snippet, where `$`, `}` and `\` mean something. */
export function snippetText(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}

/** Numbers within words (`M20`) are no numbers. */
const numbers = /(?<![\p{L}\p{N}.])-?\d+(?:\.\d+)?(?:\/0)?(?![\p{L}\p{N}])/gu;

/** An example of a clause with its numbers left open, as the notation writes it: `2 in parallel 40 A` is `? in parallel ? A`. */
export function leftOpen(example: string): string {
  return example.replace(numbers, '?');
}

/** Each `?` a placeholder, numbered from `first`. */
export function blanksAsPlaceholders(text: string, first = 1): { readonly snippet: string; readonly next: number } {
  let next = first;
  const snippet = snippetText(text).replace(/\?/g, () => `\${${next++}:?}`);
  return { snippet, next };
}
