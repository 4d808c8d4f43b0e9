/** Whether a device holds a current that is above its rating for as long as it flows: by its time-current curve. */
import type { Part } from '../model/model.ts';
import type { OperatingTime } from '../physics/operating-time.ts';
import type { ShortCurrent } from './answers.ts';
import { type Curve, curveOf, type Origin, timeOf } from './clearing.ts';
import { type Duty, usualCrankingSeconds } from './duty.ts';
import type { Way } from './wiring.ts';

/** `may open`: between the times that its curve gives; `not known`: no curve is known, or not how long the current flows. */
export type Holding = 'holds' | 'may open' | 'opens' | 'not known';

export interface Held {
  readonly holding: Holding;
  readonly seconds: number | undefined;
  /** How long is not said, and a usual time stands in. */
  readonly assumed: boolean;
  readonly time: OperatingTime | undefined;
  readonly from: Origin | undefined;
}

/** What a reading of the curve may be off by, so that a time which equals a gate's is held. */
const rounding = 1e-6;

export function held(part: Part, ratedAmps: number, current: ShortCurrent): Held {
  return heldBy(curveOf(part), ratedAmps, current);
}

/** The same of a device that is not there yet. */
export function heldBy(curve: Curve | undefined, ratedAmps: number, { amps, seconds, is }: ShortCurrent): Held {
  const assumed = seconds === undefined && is === 'cranks';
  const lasts = assumed ? usualCrankingSeconds : seconds;
  const most = Math.abs(amps);
  const base = { seconds: lasts, assumed, from: curve?.from };
  if (most <= ratedAmps * (1 + rounding)) return { ...base, holding: 'holds', time: undefined };
  const time = timeOf(curve, ratedAmps, most);
  if (time === undefined || lasts === undefined) return { ...base, holding: 'not known', time };
  if (lasts <= time.least * (1 + rounding)) return { ...base, holding: 'holds', time };
  return { ...base, holding: lasts >= time.most && Number.isFinite(time.most) ? 'opens' : 'may open', time };
}

/** Whether a device rated so holds whatever starts on its way, as far as its curve is known; `designAmps` is what flows there otherwise. */
export function holdsStarts(way: Way, ratedAmps: number, designAmps: number, duty: Duty): boolean {
  const [edge] = way.edges;
  if (edge?.is !== 'contact' || designAmps + duty.greatestSurgeAmps <= ratedAmps) return true;
  return duty.starts(way, true).every((start) => {
    const { holding } = held(edge.part, ratedAmps, start);
    return holding === 'holds' || holding === 'not known';
  });
}
