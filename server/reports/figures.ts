/**
 * Figures as people are shown them. One function a kind of figure, used by the editor and the reports alike, so
 * that a figure never reads differently in two places; the numbers are those of the answers, only rounded here.
 */
import { plainNumber } from '../../grammar/units.ts';

export { ampsSquared, clearingTime } from '../rules/words.ts';

const unsaid = '';

/** Three figures or so: two decimals below ten, one below a hundred, none above. */
function decimals(value: number): number {
  const size = Math.abs(value);
  return size < 9.995 ? 2 : size < 99.95 ? 1 : 0;
}

function figure(value: number | undefined | null, unit: string, digits: (value: number) => number): string {
  if (value === undefined || value === null || Number.isNaN(value)) return unsaid;
  if (!Number.isFinite(value)) return 'no limit';
  return `${plainNumber(value, digits(value))} ${unit}`;
}

export const amps = (value: number | undefined | null) => figure(value, 'A', decimals);
export const volts = (value: number | undefined) => figure(value, 'V', () => 2);
/** A drop is small: a millivolt counts. */
export const dropVolts = (value: number | undefined) => figure(value, 'V', () => 3);
export const watts = (value: number | undefined) => figure(value, 'W', decimals);
export const percent = (value: number | undefined) => figure(value, '%', () => 1);
export const celsius = (value: number | undefined) => figure(value, '°C', () => 0);
export const metres = (value: number | undefined) => figure(value, 'm', () => 2);
/** Of a coil: its rated figures tell it no better than to two figures. */
export const coilOhms = (value: number) => `${Number(value.toPrecision(2))} Ω`;
export const milliohms = (ohms: number | undefined) =>
  figure(ohms === undefined ? undefined : ohms * 1000, 'mΩ', decimals);
export const factor = (value: number) => plainNumber(value, 2);

/** A sentence behind a colon. */
export function lowered(sentence: string): string {
  return sentence.replace(/^./u, (first) => first.toLowerCase());
}

/** `F1`, `F1 and F2`, `F1, F2 and F3`. */
export function listed(words: readonly string[], last = 'and'): string {
  return words.length <= 1 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}
