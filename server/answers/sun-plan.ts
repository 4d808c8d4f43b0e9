/** What panels give a battery or a controller, as the round before left its volts and the losses of their cables. */
import type { Part } from '../model/model.ts';
import type { PanelCurve } from '../physics/panel-curve.ts';
import { atCurrent, atPower, type Given, givenAt, greatestPower, type StringCurve } from '../physics/panel-strings.ts';
import { controllerEfficiency } from '../tables/photovoltaic.ts';

/** A string with what was lost in the last round between its panels and where its voltage is held. */
export interface StringHeld extends StringCurve {
  ohms: number;
  lostVolts: number;
}

/** A controller, or a charger's panel input, from one round to the next. */
export interface Held {
  /** At its output, and what it gave there; whether that was all it could. */
  volts: number;
  amps: number;
  gaveAll: boolean;
  /** Where its panels gave their most. */
  bestVolts: number | undefined;
  /** In the order of its strings. */
  readonly curves: readonly StringHeld[];
}

/** What a controller does with its panels. */
export interface Plan {
  readonly given: Given;
  /** The most it can give at its output, and what it takes of that in watt. */
  readonly mostAmps: number;
  readonly watts: number;
}

/** Before anything flows; by string the curves of its panels. */
export function newlyHeld(volts: number, strings: readonly (readonly PanelCurve[])[], bestVolts?: number): Held {
  const curves = strings.map((panels) => ({ panels, ohms: 0, lostVolts: 0 }));
  return { volts, amps: 0, gaveAll: true, bestVolts, curves };
}

export function planOf({ facts }: Part, held: Held, ratedAmps: number): Plan {
  const { volts, curves } = held;
  const tied = facts.word('method') === 'pwm';
  const most = tied ? heldUp(curves, volts) : followed(facts, held, curves);
  const offered = tied ? most.amps : (controllerEfficiency * most.amps * most.volts) / volts;
  const mostAmps = Math.min(offered, ratedAmps);
  const amps = held.gaveAll ? mostAmps : Math.min(mostAmps, held.amps);
  const given =
    amps >= offered
      ? most
      : tied
        ? { ...most, amps, each: most.each.map((one) => (one * amps) / offered) }
        : atPower(curves, (amps * volts) / controllerEfficiency, most);
  return { given, mostAmps, watts: amps * volts };
}

/** Where a controller that follows the greatest power holds its panels, as far as its own limits let it. */
function followed(facts: Part['facts'], held: Held, curves: readonly StringCurve[]): Given {
  const [mostAmps, mostWatts] = [facts.number('pv', 'current'), facts.number('pv', 'power')];
  let most = greatestPower(curves, held.volts, held.bestVolts);
  held.bestVolts = most.volts;
  if (mostAmps !== undefined && mostAmps >= 0) most = atCurrent(curves, mostAmps, most);
  if (mostWatts !== undefined && mostWatts >= 0) most = atPower(curves, mostWatts, most);
  return most;
}

/** Held at a voltage; what would flow backwards a tied controller stops. */
function heldUp(curves: readonly StringCurve[], volts: number): Given {
  const given = givenAt(curves, volts);
  return given.amps >= 0 ? given : greatestPower(curves, volts);
}
