/**
 * Strings of panels in parallel, each behind its own cables: what they give at a voltage, and where they give their most. A
 * string of unlike panels passes one current; where that is more than one of them gives, its bypass diodes carry it.
 */
import { Held, openVolts, type PanelCurve, seriesAt, voltsAt } from './panel-curve.ts';

export interface StringCurve {
  /** Like panels share one object. */
  readonly panels: readonly PanelCurve[];
  /** Resistance of its way to where the voltage is held, and what is lost there besides, whatever flows. */
  readonly ohms: number;
  readonly lostVolts: number;
}

export interface Given {
  readonly volts: number;
  readonly amps: number;
  /** By string; negative where the others drive it backwards. */
  readonly each: readonly number[];
}

const mostHalvings = 200;
/** Part of itself to which a voltage is sought. */
const finest = 1e-14;

/** Current of a string held at a voltage. */
function stringAt(string: StringCurve, volts: number, held: Held): void {
  const { panels, ohms, lostVolts } = string;
  const first = panels[0];
  if (first === undefined) {
    held.amps = 0;
    held.siemens = 0;
  } else if (isOfOne(string)) seriesAt(first, panels.length, ohms, volts + lostVolts, held);
  else unlikeAt(string, volts, held);
}

/** Whether its panels are all alike. */
function isOfOne({ panels }: StringCurve): boolean {
  for (let i = 1; i < panels.length; i++) if (panels[i] !== panels[0]) return false;
  return true;
}

function unlikeAt({ panels, ohms, lostVolts }: StringCurve, volts: number, held: Held): void {
  const at = (amps: number): { rest: number; slope: number } => {
    let rest = -volts - lostVolts - ohms * amps;
    let slope = -ohms;
    for (const panel of panels) {
      const one = voltsAt(panel, amps);
      rest += one.volts;
      slope += one.slope;
    }
    return { rest, slope };
  };
  let high = Math.max(...panels.map(({ lightAmps }) => lightAmps)) + 1;
  let low = -1;
  while (at(low).rest < 0 && low > -1e9) low *= 4;
  while (at(high).rest > 0 && high < 1e9) high *= 4;
  let amps = (low + high) / 2;
  for (let step = 0; step < mostHalvings && high - low > finest * Math.max(1, Math.abs(high)); step++) {
    const { rest, slope } = at(amps);
    if (rest > 0) low = amps;
    else high = amps;
    const newton = amps - rest / slope;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    const change = Math.abs(next - amps);
    amps = next;
    if (change <= finest * Math.max(1, Math.abs(amps))) break;
  }
  held.amps = amps;
  held.siemens = -1 / at(amps).slope;
}

/** For what is read at once. */
const here = new Held();

/** Several strings held at one voltage. */
export function givenAt(strings: readonly StringCurve[], volts: number): Given {
  const each = strings.map((string) => {
    stringAt(string, volts, here);
    return here.amps;
  });
  return { volts, amps: each.reduce((sum, amps) => sum + amps, 0), each };
}

/** All that they give together. */
function ampsAt(strings: readonly StringCurve[], volts: number): number {
  let sum = 0;
  for (const string of strings) {
    stringAt(string, volts, here);
    sum += here.amps;
  }
  return sum;
}

/** The highest voltage at which they still give something. */
export function openVoltsOf(strings: readonly StringCurve[]): number {
  const opens = strings.map(({ panels, lostVolts }) =>
    panels.reduce((sum, panel) => sum + openVolts(panel), -lostVolts),
  );
  let low = Math.min(...opens);
  let high = Math.max(...opens);
  if (!(high > low)) return strings.length === 0 ? 0 : high;
  for (let step = 0; step < mostHalvings && high - low > finest * Math.abs(high); step++) {
    const middle = (low + high) / 2;
    if (ampsAt(strings, middle) > 0) low = middle;
    else high = middle;
  }
  return low;
}

/** Looked over for the highest of several humps, where unlike panels make them. */
const looks = 24;
/** How far a greatest power moves from one round to the next, as a part. */
const nearby = 0.002;

/**
 * Where they give their greatest power at `lowest` volts or above. One hump is followed by the slope of the power; of
 * several, which panels unlike in series make, the highest is taken. `near` is where it was before something little changed.
 */
export function greatestPower(strings: readonly StringCurve[], lowest: number, near?: number): Given {
  const slope = (volts: number) => powerSlope(strings, volts);
  if (near !== undefined && near > lowest) {
    const below = Math.max(lowest, near * (1 - nearby));
    const above = near * (1 + nearby);
    const [rises, falls] = [slope(below), slope(above)];
    if (rises > 0 && falls < 0) return givenAt(strings, fallsFrom(slope, below, above, rises, falls));
  }
  const open = openVoltsOf(strings);
  if (!(open > lowest)) return { volts: open, amps: 0, each: strings.map(() => 0) };
  let low = lowest;
  let high = open;
  if (!strings.every(isOfOne)) {
    let best = 0;
    let most = -1;
    const step = (open - lowest) / looks;
    for (let i = 0; i <= looks; i++) {
      const volts = lowest + i * step;
      const watts = volts * ampsAt(strings, volts);
      if (watts > most) [best, most] = [i, watts];
    }
    low = lowest + Math.max(0, best - 1) * step;
    high = lowest + Math.min(looks, best + 1) * step;
  }
  return givenAt(strings, fallsFrom(slope, low, high));
}

/** Change of the power with the voltage. */
function powerSlope(strings: readonly StringCurve[], volts: number): number {
  let slope = 0;
  for (const string of strings) {
    stringAt(string, volts, here);
    slope += here.amps - volts * here.siemens;
  }
  return slope;
}

/** The higher voltage at which they give no more than `mostAmps`, or their open voltage. */
export function atCurrent(strings: readonly StringCurve[], mostAmps: number, from: Given): Given {
  if (from.amps <= mostAmps) return from;
  return givenAt(
    strings,
    fallsFrom((volts) => ampsAt(strings, volts) - mostAmps, from.volts, openVoltsOf(strings)),
  );
}

/** The higher voltage at which they give no more than `mostWatts`: that of a controller that turns power away. */
export function atPower(strings: readonly StringCurve[], mostWatts: number, from: Given): Given {
  if (from.amps * from.volts <= mostWatts) return from;
  return givenAt(
    strings,
    fallsFrom((volts) => volts * ampsAt(strings, volts) - mostWatts, from.volts, openVoltsOf(strings)),
  );
}

/** Where a falling function passes nought between two places, or the end nearest to that (regula falsi, Illinois). */
function fallsFrom(f: (x: number) => number, low: number, high: number, atFirst = f(low), atLast = f(high)): number {
  let atLow = atFirst;
  let atHigh = atLast;
  if (atLow <= 0) return low;
  if (atHigh >= 0) return high;
  let a = low;
  let b = high;
  let side = 0;
  let width = b - a;
  for (let step = 0; step < mostHalvings && b - a > finest * Math.abs(b); step++) {
    // Where three steps have not halved what is left, halving does.
    const slow = step % 3 === 2 && b - a > width / 2;
    if (step % 3 === 2) width = b - a;
    const crossing = (a * atHigh - b * atLow) / (atHigh - atLow);
    const x = slow ? (a + b) / 2 : Math.min(Math.max(crossing, a + finest * b * 0.25), b - finest * b * 0.25);
    const here = f(x);
    if (here === 0) return x;
    if (here > 0) {
      [a, atLow] = [x, here];
      if (side === 1) atHigh /= 2;
      side = 1;
    } else {
      [b, atHigh] = [x, here];
      if (side === -1) atLow /= 2;
      side = -1;
    }
  }
  return (a + b) / 2;
}
