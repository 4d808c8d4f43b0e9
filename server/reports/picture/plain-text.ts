/** Text of a spec as a drawing may hold it: one line, with nothing in it that XML or a reader of it stumbles over. */
import { escaped } from '../xml.ts';

/** Control characters, halves of surrogate pairs, and marks that turn the direction of what follows. */
const unfit = /[\p{Cc}\p{Cs}\u2028\u2029\u202a-\u202e\u2066-\u2069\ufffe\uffff]+/gu;

export function plainText(text: string): string {
  return text.replaceAll(unfit, ' ').replaceAll(/\s+/g, ' ').trim();
}

/** The same as it stands between tags and in quotes. */
export function escapedText(text: string): string {
  return escaped(plainText(text));
}

/** Cut at so many letters, with a sign that it was. */
export function shortened(text: string, most: number): string {
  const letters = [...text];
  return letters.length <= most ? text : `${letters.slice(0, most - 1).join('')}…`;
}
