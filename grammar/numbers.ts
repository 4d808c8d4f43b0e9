/** How numbers are written: one decimal point, nothing between thousands; and what was meant where they are not. */

/** A run of digits with points and commas, signed or not; `2/0` of a gauge. Behind it the number's end is sought. */
export const numberRun = /[-+\u2212\u2013]?(?:\d+(?:[.,]\d+){0,6}|\.\d+)(?:\/0)?/y;

const plain = /^[-+\u2212\u2013]?(?:\d+(?:\.\d+)?|\.\d+)$/;
const aught = /^\d+\/0$/;
const signed = /^([-+\u2212\u2013]?)(.*)$/;

export interface ReadNumber {
  /** Undefined where it can be read two ways, or only with a comma. */
  readonly value: number | undefined;
  /** What it may have meant, likeliest first, where commas or points do not stand as the notation has them. */
  readonly meant: readonly string[];
}

/** The value of a number as written; `undefined` when it is no number at all but, say, a list without spaces (`1,2,3`). */
export function readNumber(text: string): ReadNumber | undefined {
  if (plain.test(text)) return { value: Number(plainSign(text)), meant: [] };
  if (aught.test(text)) return { value: undefined, meant: [] };
  const [, sign = '', digits = ''] = signed.exec(text) ?? [];
  const meant = meantBy(digits).map((number) => plainSign(sign) + number);
  return meant.length === 0 ? undefined : { value: undefined, meant };
}

function meantBy(digits: string): string[] {
  if (/^\d{1,3}(?:,\d{3})+\.\d+$/.test(digits) || /^\d{1,3}(?:,\d{3}){2,}$/.test(digits))
    return [digits.replaceAll(',', '')];
  if (/^\d{1,3}(?:\.\d{3})+,\d+$/.test(digits)) return [digits.replaceAll('.', '').replace(',', '.')];
  if (/^\d{1,3}(?:\.\d{3}){2,}$/.test(digits)) return [digits.replaceAll('.', '')];
  if (!/^\d+,\d+$/.test(digits)) return [];
  const point = digits.replace(',', '.');
  // `1,000` may be a thousand or one: only the person knows.
  return /^[1-9]\d{0,2},\d{3}$/.test(digits) ? [digits.replace(',', ''), point] : [point];
}

/** U+2212 and the en dash that writing programs put for a minus. */
export function plainSign(text: string): string {
  return text.replace(/^[\u2212\u2013]/, '-');
}

/** A number as the formatter writes it: plain minus, a nought before the point. Other digits stay as they are. */
export function tidyNumber(text: string): string {
  return plainSign(text).replace(/^([-+]?)\./, '$10.');
}
