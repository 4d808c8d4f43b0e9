/**
 * Panels and what takes their current, settled together with the rest of a case, round by round: from what the cables lost
 * and the battery stood at in the round before follows what every string gives, and from that the next round.
 */
import type { Part } from '../model/model.ts';
import { givenAt } from '../physics/panel-strings.ts';
import type { DrawnCircuit } from './circuit-draft.ts';
import type { PanelString } from './panel-side.ts';
import type { Port, Source } from './ports.ts';
import { inputVolts, type PanelsDrawn, tangent } from './solar-drawing.ts';
import { type Held, newlyHeld, planOf, type StringHeld } from './sun-plan.ts';

/** What was drawn, and how the last round left it. */
interface Placed {
  readonly drawn: PanelsDrawn;
  readonly held: Held;
  each: readonly number[];
  /** The most that a controller can give. */
  mostAmps: number;
}

/** Less than this flows nowhere to speak of, in ampere: then a loss is none of a resistance. */
const leastAmps = 1e-6;

export class Solar {
  /** Power that comes from panels, in watt at the output, by controller or charger. */
  readonly panelWatts = new Map<Part, number>();
  private readonly placed: readonly Placed[];

  constructor(all: readonly PanelsDrawn[]) {
    this.placed = all.map((drawn) => {
      const { volts, curves, each, through } = drawn;
      if (through !== undefined) this.panelWatts.set(through.source.part, through.watts);
      const held = newlyHeld(volts, curves, through?.bestVolts);
      return { drawn, held, each, mostAmps: through?.mostAmps ?? 0 };
    });
  }

  /** Takes over what a solution tells; the greatest change in watt. */
  settle(across: (port: Pick<Port, 'plus' | 'minus'>) => number, givenBy: (source: Source) => number): number {
    let change = 0;
    for (const { drawn, held, each, mostAmps } of this.placed) {
      const { ends, strings, through } = drawn;
      const volts = across(ends);
      const before = held.volts;
      held.volts = volts;
      const amps = through === undefined ? Math.max(...each) : Math.max(0, givenBy(through.source));
      change = Math.max(change, Math.abs(volts - before) * Math.max(1, amps));
      if (through !== undefined) {
        const gaveAll = amps >= mostAmps * (1 - 1e-9);
        const expected = held.gaveAll ? mostAmps : held.amps;
        if (!gaveAll || !held.gaveAll) change = Math.max(change, Math.abs(amps - expected) * volts);
        held.amps = amps;
        held.gaveAll = gaveAll;
      }
      const heldVolts = through === undefined ? volts : across(through.pv);
      for (let i = 0; i < strings.length; i++) {
        const curve = held.curves[i] as StringHeld;
        const current = each[i] ?? 0;
        let lost = -heldVolts;
        for (const panel of (strings[i] as PanelString).panels) lost += across(panel);
        const more = Math.abs(lost - curve.lostVolts - curve.ohms * current);
        change = Math.max(change, more * Math.max(1, Math.abs(current)));
        const resistive = Math.abs(current) > leastAmps && lost / current >= 0;
        curve.ohms = resistive ? lost / current : 0;
        curve.lostVolts = resistive ? 0 : lost;
      }
    }
    return change;
  }

  /** Panels and controllers as the last solution makes them. */
  change(circuit: DrawnCircuit): void {
    for (const placed of this.placed) {
      const { drawn, held } = placed;
      const { through } = drawn;
      if (through === undefined) placed.each = givenAt(held.curves, held.volts).each;
      else {
        const { source, input, output, ratedAmps } = through;
        const { given, mostAmps, watts } = planOf(source.part, held, ratedAmps);
        placed.each = given.each;
        placed.mostAmps = mostAmps;
        this.panelWatts.set(source.part, watts);
        circuit.setEmf(input, inputVolts(given));
        if (output?.as === 'current') circuit.setAmps(output, -mostAmps);
        else if (output?.as === 'limited') circuit.setMostAmps(output, mostAmps);
      }
      drawn.panels.forEach((panels, i) => {
        const amps = placed.each[i] ?? 0;
        panels.forEach((element, k) => {
          const curve = held.curves[i]?.panels[k];
          if (element.as === 'current') circuit.setAmps(element, -amps);
          else if (curve !== undefined) {
            const behind = tangent(curve, amps);
            circuit.setEmf(element, behind.volts, behind.ohms);
          }
        });
      });
    }
  }
}
