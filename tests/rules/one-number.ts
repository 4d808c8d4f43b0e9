/** The figures of a text, each of which can be put higher or lower by itself. */

export interface NumberAt {
  readonly start: number;
  readonly end: number;
  readonly value: number;
  /** Of a scale with a nought of its own, so that it is moved and not multiplied. */
  readonly isTemperature: boolean;
}

/** Figures with a unit behind them; what stands in names, in quotes and behind `#` is none. */
export function numbersIn(text: string): NumberAt[] {
  const bare = text.replace(/"[^"\n]*"|#.*$/gm, (found) => ' '.repeat(found.length));
  return [...bare.matchAll(/(?<![\p{L}\p{N}.:_-])(-?\d+(?:\.\d+)?)(?=\s*(\p{L}|%|°))/gu)].map((match) => ({
    start: match.index,
    end: match.index + match[0].length,
    value: Number(match[0]),
    isTemperature: match[2] === '°',
  }));
}

/** The text with one of its figures put differently. */
export function withNumber(text: string, { start, end }: NumberAt, value: number): string {
  return text.slice(0, start) + String(Number(value.toPrecision(7))) + text.slice(end);
}

/** Other values to try for a figure. */
export function othersOf({ value, isTemperature }: NumberAt): number[] {
  return isTemperature
    ? [-20, 20, -60, 60].map((step) => value + step)
    : [0.5, 2, 0.8, 1.3, 0.2, 5, 0.05, 20, 0.01].map((factor) => value * factor);
}
