/** Completion at marked places, and what comes of taking an offer. */
import type { CompletionItem, TextEdit } from 'vscode-languageserver';
import { LineIndex } from '../../grammar/lines.ts';
import type { CompletionOptions } from '../../server/editor/completion.ts';
import { completion } from '../../server/editor/completion.ts';
import { analyseText } from '../analysed.ts';

/** A small spec that the marked lines below are added to. */
export const shed = `system "Shed" 12 V

place LOFT 55 °C
place GARAGE 40 °C
stock thin cable 1.5 mm², od 4.8 mm
stock flat cable 2 x 2.5 mm²
stock blade-5 fuse 5 A, blade, 32 V
enclosure BOX plastic, IP54
enclosure POD metal, IP65
entry E1 in BOX, gland M20
entry E2 in POD, gland M25
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 "Main" 5 A, blade, 32 V
fuse F2 10 A, blade, 32 V
isolator Q1 2 poles, 25 A dc
fusebox FB 3 ways, way 1 fuse 5 A
busbar POS 100 A
load LAMP 12 W
load FAN 24 W
relay K1 coil 12 V, contact 30 A
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 = thin red, 1.2 m, F1:out to LAMP:+
case dusk sun 0 %, LAMP on
case noon sun 100 %
`;

export interface Completed {
  readonly text: string;
  readonly offset: number;
  readonly items: readonly CompletionItem[];
}

const both: CompletionOptions = { snippets: true, markdown: true };

/** Items at the one `|` of a text. */
export function complete(marked: string, options = both): Completed {
  const offset = marked.indexOf('|');
  const text = marked.slice(0, offset) + marked.slice(offset + 1);
  return { text, offset, items: completion(analyseText(text), offset, options) };
}

/** At a `|` in lines below the shed. */
export function inShed(marked: string, options = both): Completed {
  return complete(shed + marked, options);
}

export const labels = ({ items }: Completed): string[] => items.map(({ label }) => label);

/** The text once an item is taken, as an editor without placeholders writes it: a placeholder stands as its words. */
export function take({ text }: Pick<Completed, 'text'>, item: CompletionItem): string {
  const lines = new LineIndex(text);
  const edit = item.textEdit as TextEdit;
  const plain = item.insertTextFormat === 2 ? withoutPlaceholders(edit.newText) : edit.newText;
  return [{ ...edit, newText: plain }, ...(item.additionalTextEdits ?? [])]
    .map(({ range, newText }) => ({ start: lines.offset(range.start), end: lines.offset(range.end), newText }))
    .sort((a, b) => b.start - a.start)
    .reduce((done, { start, end, newText }) => done.slice(0, start) + newText + done.slice(end), text);
}

function withoutPlaceholders(snippet: string): string {
  return snippet
    .replace(/\$\{\d+\|([^,|]*)[^|]*\|\}/gu, '$1')
    .replace(/\$\{\d+:((?:[^}\\]|\\.)*)\}/gu, '$1')
    .replace(/\$\d+/gu, '')
    .replace(/\\([\\$}])/gu, '$1');
}
