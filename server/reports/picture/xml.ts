/** Text and figures as XML takes them. Whatever a spec says stays text. */
import { plainText } from './plain-text.ts';

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

export function escaped(text: string): string {
  return plainText(text).replaceAll(/[&<>"']/g, (letter) => entities[letter] ?? '');
}

/** At most two decimals, and never what is no figure. */
export function figure(value: number): string {
  return Number.isFinite(value) ? String(Math.round(value * 100) / 100) : '0';
}
