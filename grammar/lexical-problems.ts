/** What is wrong with one quantity or text as it is written, whatever it stands for. */
import { insert, list, problem, quoted, replace } from './phrases.ts';
import type { QuantityPayload } from './tokens.ts';
import type { Problem, Span } from './tree.ts';
import { unitGap } from './units.ts';

/** The problem of a quantity's writing, if it has one. `text` is the atom's. */
export function quantityProblem(text: string, start: number, payload: QuantityPayload): Problem | undefined {
  const { trouble, spelling, numberStart, numberEnd } = payload;
  if (trouble === undefined && spelling.right) return undefined;
  const within = (from: number, to: number): Span => ({ start: start + from, end: start + to });
  const whole = within(0, text.length);
  const number = text.slice(numberStart, numberEnd);
  const { symbol } = spelling.unit;
  switch (trouble?.is) {
    case 'comma':
      return numberWithCommas(
        number,
        trouble.meant,
        `${unitGap(symbol)}${symbol}`,
        whole,
        within(numberStart, numberEnd),
      );
    case 'no-gauge':
      return problem(
        'unit-spelling',
        whole,
        `${text} is no wire gauge: gauges go from 40 AWG up to 1 AWG, then 1/0, 2/0, 3/0 and 4/0 AWG.`,
      );
    case 'spelling':
      return problem('unit-spelling', whole, `${quoted(text)} is written ${trouble.right} here.`, [
        replace(`Write ${trouble.right}`, whole, trouble.right, true),
      ]);
    case 'hash':
      return problem(
        'hash-gauge',
        whole,
        `${quoted(text)} would begin a comment: write the size as ${trouble.right}.`,
        [replace(`Write ${trouble.right}`, whole, trouble.right, true)],
      );
    case undefined:
      return misspeltUnit(number, symbol, spelling.spelling, within(payload.unitStart, payload.unitEnd), payload);
  }
}

export function numberWithCommas(
  number: string,
  meant: readonly string[],
  unit: string,
  whole: Span,
  span: Span,
): Problem {
  const readings = meant.map((one) => `${one}${unit}`);
  const message =
    meant.length > 1
      ? `${number}${unit} can be read two ways: write ${list(readings)}, a point before decimals and nothing between thousands.`
      : `${number}${unit} is written ${readings[0]}: a point before decimals, nothing between thousands.`;
  return problem(
    'decimal-comma',
    whole,
    message,
    meant.map((one, i) => replace(`Write ${readings[i]}`, span, one, meant.length === 1)),
  );
}

function misspeltUnit(
  number: string,
  symbol: string,
  written: string,
  span: Span,
  { numberEnd, unitStart }: QuantityPayload,
): Problem {
  const right = `${number}${unitGap(symbol)}${symbol}`;
  // `6"` becomes `6 inch`: a space goes in where letters would run into the number.
  const gap = numberEnd === unitStart ? unitGap(symbol) : '';
  return problem('unit-spelling', span, `${quoted(written)} is written ${symbol} here: ${right}.`, [
    replace(`Write ${right}`, span, gap + symbol, true),
  ]);
}

/** A text that runs to the line's end. A quote behind a letter and before a space was meant to close one. */
export function unclosedText(statement: string, { start, end }: Span): Problem {
  if (/[\p{L}\p{N}]/u.test(statement.charAt(start - 1)) && !/\S/.test(statement.charAt(start + 1)))
    return problem(
      'unclosed-text',
      { start, end: start + 1 },
      'This quote closes a text that no quote opens: put " before its first word as well.',
    );
  const last = start + statement.slice(start, end).trimEnd().length;
  return problem('unclosed-text', { start, end: last }, 'This text has no closing quote: put " behind its last word.', [
    insert('Close the text', last, '"', true),
  ]);
}
