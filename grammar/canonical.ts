/** An atom as the notation writes it: symbols for units, plain signs, one space between number and unit. */
import { tidyNumber } from './numbers.ts';
import type { Atom, QuantityAtom } from './tree.ts';
import { unitGap, unitOf } from './units.ts';

export function canonicalText(atom: Atom): string {
  switch (atom.kind) {
    case 'word':
      return atom.value;
    case 'quantity':
      return canonicalQuantity(atom);
    case 'number':
      return tidyNumber(atom.text);
    case 'times':
      return `${atom.text.slice(0, /\D/.exec(atom.text)?.index)} x`;
    case 'range':
      return atom.text.replace('\u2013', '-');
    case 'terminal':
      return `${atom.part}:${atom.terminal}`;
    case 'text':
      return `"${atom.value}${atom.closed ? '"' : ''}`;
    default:
      return atom.text;
  }
}

/** A unit that is misspelt, or a number that can be read two ways, is a finding with a fix of its own: it is not hidden. */
function canonicalQuantity(atom: QuantityAtom): string {
  const { text, span, numberSpan, unitSpan, unit } = atom;
  const number = text.slice(numberSpan.start - span.start, numberSpan.end - span.start);
  const written = text.slice(unitSpan.start - span.start);
  const pair = numberSpan.start === span.start && numberSpan.end <= unitSpan.start && written !== '';
  if (!pair || (atom.value === undefined && number !== '?')) return text;
  const { accepted = [], misspelt = [] } = unitOf(unit) ?? {};
  if (written === unit || accepted.includes(written)) return `${tidyNumber(number)}${unitGap(unit)}${unit}`;
  // `6"` stays together: behind a space the quote would open a text.
  const gap = misspelt.includes(written) && /^\p{L}/u.test(written) ? ' ' : '';
  return `${tidyNumber(number)}${gap}${written}`;
}
