/** Sizes that the whole drawing keeps to, in its own unit. */
import type { TextRole } from './scene.ts';

/** Height of the letters by what they say. */
export const letters: Readonly<Record<TextRole, number>> = {
  name: 11,
  title: 9,
  rating: 9,
  terminal: 8,
  sign: 10,
  cable: 9,
  group: 11,
  gland: 8,
  symbol: 9,
};
export const bold: ReadonlySet<TextRole> = new Set(['name', 'group']);

/** From one line of letters to the next. */
export const lineStep = (role: TextRole): number => Math.round(letters[role] * 1.25);

/** Between the leads of a part, and between cores on one terminal. */
export const leadStep = 22;
/** The same where cores with labels go on straight. */
export const wideStep = 38;
export const coreStep = 12;
/** Between the cores on a bar. */
export const barStep = 18;
/** Everything snaps to this. */
export const grid = 2;

export const snap = (value: number): number => Math.round(value / grid) * grid;
export const snapUp = (value: number): number => Math.ceil(value / grid) * grid;
