/** What an offer takes the place of: all that is written already of such a thing, and nothing behind it. */
import type { Span } from '../../../grammar/tree.ts';
import { unitAt } from '../../../grammar/units.ts';
import type { Context } from './context.ts';
import type { Offer } from './offers.ts';
import { phraseFrom } from './phrases.ts';

export interface Replaced {
  readonly span: Span;
  /** Digits behind the pointer, which stay before the unit that is put in. */
  readonly keeps: string;
  /** What stands in the span, where it is the offer itself: then nothing changes. */
  readonly same: string | undefined;
}

/** No phrase and no figure is longer. */
const longest = 200;
/** What comes behind these goes on from them, so that nothing else may stand in their place. */
const leading: ReadonlySet<string> = new Set(['to', 'x']);
const moreDigits = /^\d*(?:\.\d+)?(?:\/0)?/u;
const signedNumber = /^[-+\u2212\u2013]\d+(?:\.\d+)?/u;

/** How far each of the offers at a place reaches: `vol|tage at` is one, and so are a number and its unit, as `1|2 V`. */
export function replacedBy(context: Context, offers: readonly Offer[]): (offer: Offer) => Replaced {
  const { at, offset, analysis } = context;
  const ahead = (from: number) => /^[^\r\n]*/u.exec(analysis.text.slice(from, from + longest))?.[0] ?? '';
  const past = (from: number, what: RegExp) => from + (what.exec(ahead(from))?.[0].length ?? 0);
  // In a clause an offer goes before a word of which nothing is typed yet. Units, names and first words change in place.
  const goesBefore = at.where === 'clause' && at.prefix === '';
  const start = goesBefore ? offset : at.replace.start;

  const behindDigit = /^[./]?$/u.test(at.prefix) && /\d/u.test(analysis.text.charAt(start - 1));
  const digits = past(start, behindDigit ? moreDigits : signedNumber);
  const isFigure = at.where === 'unit' || behindDigit || (at.prefix !== '' && digits > start);
  const word = isFigure ? past(digits, /^[ \t]*/u) : start;
  const unit = isFigure ? (unitAt(ahead(word), 0)?.spelling.length ?? 0) : 0;
  // Also those that are not offered because of what stands around: whatever is meant comes in their place.
  const words = at.expected.filter((one) => one.is === 'word').map((one) => phraseFrom(context, one).phrase);
  const phrases = isFigure || !goesBefore ? [...words, ...offers.map(textOf)] : [];
  const there = ahead(word);
  const said = phrases.reduce((most, text) => (leading.has(text) ? most : Math.max(most, reach(there, text))), unit);
  const usual = goesBefore ? offset : at.replace.end;
  const end = Math.max(usual, isFigure ? digits : usual, said > 0 ? word + said : usual);
  const keeps = behindDigit ? analysis.text.slice(start, digits) : '';

  return (offer) => {
    const { replace } = offer;
    if (replace !== undefined)
      return { span: { start: replace.start, end: Math.max(end, replace.end) }, keeps: '', same: undefined };
    // A first word brings what follows it.
    const from = at.prefix === '' || keeps !== '' ? past(start + keeps.length, /^[ \t]*/u) : start;
    const own = at.where === 'statement' ? 0 : reach(ahead(from), textOf(offer));
    return own > 0 && from + own >= offset
      ? { span: { start, end: from + own }, keeps: '', same: analysis.text.slice(start, from + own) }
      : { span: { start, end }, keeps, same: undefined };
  };
}

/** What is written by itself. */
export function textOf({ label, text = label }: Offer): string {
  return text;
}

/** How many characters of `there` are the phrase that it begins with, whatever the blanks between its words; 0 if none. */
function reach(there: string, phrase: string): number {
  let at = 0;
  for (const character of phrase) {
    const length = character === ' ' ? (/^[ \t]+/u.exec(there.slice(at))?.[0].length ?? 0) : character.length;
    if (length === 0 || (character !== ' ' && !there.startsWith(character, at))) return 0;
    at += length;
  }
  // Behind `B1:` comes the terminal; other words must not run on.
  return phrase.endsWith(':') || !/^(?:[\p{L}\p{M}\p{N}_]|[.:/+-][\p{L}\p{N}°])/u.test(there.slice(at)) ? at : 0;
}
