/** The form of a clause for people: slots in angle quotes, choices with strokes, in square brackets what may be left out or said again. */
import type { Span } from '../../../grammar/tree.ts';

export interface ReadableForm {
  readonly label: string;
  /** What stands for a value, in order: `‹length›`, `(dc | ac)`. One slot may stand at several places. */
  readonly slots: readonly { readonly slot: string; readonly span: Span }[];
}

/** Around a slot while its form is made readable: letters that no form has. */
const [open, named, close] = ['\uE000', '\uE001', '\uE002'];
const around = (slot: string, text: string) => `${open}${slot}${named}${text}${close}`;
const marked = new RegExp(`${open}([^${named}]+)${named}([^${close}]+)${close}`, 'u');

export function formInWords(form: string): ReadableForm {
  let label = form
    .replace(/\{([\w-]+)=([^}]+)\}/g, (_, slot: string, words: string) =>
      around(slot, words.includes('|') ? `(${words})` : words),
    )
    .replace(/\{([\w-]+):[^}+]+(\+?)\}/g, (_, slot: string, many: string) =>
      around(slot, `‹${slot}›${many === '' ? '' : '…'}`),
    )
    .replace(/\(([^()]*)\)\*/g, '[$1]…')
    .replace(/\s*\|\s*/g, ' | ')
    .replace(/\s+/g, ' ')
    .replace(/([[(]) /g, '$1')
    .replace(/ ([\])])/g, '$1');
  const slots: { slot: string; span: Span }[] = [];
  for (let next = marked.exec(label); next !== null; next = marked.exec(label)) {
    const [whole, slot = '', text = ''] = next;
    label = label.slice(0, next.index) + text + label.slice(next.index + whole.length);
    slots.push({ slot, span: { start: next.index, end: next.index + text.length } });
  }
  return { label, slots };
}

export function readableForm(form: string): string {
  return formInWords(form).label;
}
