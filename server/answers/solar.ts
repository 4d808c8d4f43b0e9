/**
 * Panels and what takes their current, settled together with the rest of a case, round by round: from what the cables lost
 * and the battery stood at in the round before follows what every string gives, and from that the next round.
 */
import type { Case, Part } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { type PanelCurve, voltsAt } from '../physics/panel-curve.ts';
import { atCurrent, atPower, type Given, givenAt, greatestPower, type StringCurve } from '../physics/panel-strings.ts';
import { controllerEfficiency } from '../tables/photovoltaic.ts';
import { batteryReached, batteryVolts } from './charging.ts';
import type { CircuitDraft, DrawnCircuit, Element } from './circuit-draft.ts';
import type { Connections } from './contacts-in-case.ts';
import type { Installation } from './installation.ts';
import type { Purpose } from './loads.ts';
import { type PanelString, stringsAt } from './panel-side.ts';
import { PanelCurves } from './panels.ts';
import type { Draw, Port, Source } from './ports.ts';
import type { Supply } from './supplies.ts';

/** Resistance of a regulated output or input, so that it is never ideal (common practice, no source). */
export const regulatorOhms = 0.001;

/** A string with what was lost in the last round between its panels and where its voltage is held. */
interface StringHeld extends StringCurve {
  ohms: number;
  lostVolts: number;
}

/** A controller, or a charger's panel input, from one round to the next. */
interface Held {
  /** At its output, and what it gave there; whether that was all it could. */
  volts: number;
  amps: number;
  gaveAll: boolean;
  /** Where its panels gave their most. */
  bestVolts: number | undefined;
  /** In the order of its strings. */
  readonly curves: readonly StringHeld[];
}

/** What is told of a controller as it is put into the circuit. */
export interface SunCharge {
  readonly battery: Supply;
  /** What it can give at first, in ampere. */
  readonly amps: number;
  readonly pv: readonly [Draw, Element];
  /** Its output is this element, and gives what its panels let it; else it gives what it is said to, panels or not. */
  gives(output: Element): void;
}

/** What was put into the circuit: its memory, where its voltage is held, and its elements. */
interface Placed {
  readonly held: Held;
  readonly ends: Pick<Port, 'plus' | 'minus'>;
  readonly strings: readonly PanelString[];
  /** By string and panel. */
  readonly panels: readonly (readonly Element[])[];
  /** Where a controller stands between panels and battery. */
  readonly through: Through | undefined;
  each: readonly number[];
}

interface Through {
  readonly pv: Port;
  readonly input: Element;
  readonly source: Source;
  readonly ratedAmps: number;
  /** The output, where it gives what the panels let it. */
  output: Element | undefined;
  mostAmps: number;
}

/** What a controller does with its panels. */
interface Plan {
  readonly given: Given;
  /** The most it can give at its output, and what it takes of that in watt. */
  readonly mostAmps: number;
  readonly watts: number;
}

/** Less than this flows nowhere to speak of, in ampere: then a loss is none of a resistance. */
const leastAmps = 1e-6;

/** Beyond it a tangent would be all resistance, and its voltage all rounding. */
const mostSlopeOhms = 1e4;

const curvesOf = new WeakMap<Layout, PanelCurves>();

export class Solar {
  /** Power that comes from panels, in watt at the output, by controller or charger. */
  readonly panelWatts = new Map<Part, number>();
  private readonly curves: PanelCurves;
  private readonly placed: Placed[] = [];

  constructor(
    private readonly installation: Installation,
    private readonly stated: Case,
    private readonly connections: Connections,
    private readonly purpose: Purpose,
  ) {
    const known = curvesOf.get(installation.layout) ?? new PanelCurves();
    curvesOf.set(installation.layout, known);
    this.curves = known;
  }

  /** Puts the panels of a controller into the circuit; undefined where none reach it or it reaches no battery. */
  charge(
    draft: CircuitDraft,
    source: Source,
    ratedAmps: number,
    elements: Map<Source, Element>,
  ): SunCharge | undefined {
    const { installation, stated, connections } = this;
    const pv = installation.draws.find((draw) => draw.is === 'pv' && draw.part === source.part);
    const battery = pv === undefined ? undefined : batteryReached(source, installation, stated, connections);
    if (pv === undefined || battery === undefined) return undefined;
    const strings = stringsTo(pv, installation, stated, connections).filter((string) => this.hasCurve(string));
    const held = this.newlyHeld(voltsOf(battery, stated), strings);
    if (strings.length === 0 || !(held.volts > 0)) return undefined;
    const { given, mostAmps, watts } = planOf(source.part, held, ratedAmps);
    this.panelWatts.set(source.part, watts);
    const input = draft.emf(pv, inputVolts(given), regulatorOhms);
    const through: Through = { pv, input, source, ratedAmps, output: undefined, mostAmps };
    const panels = strings.map((string, i) => give(draft, string, held.curves[i], given.each[i] ?? 0, elements));
    this.placed.push({ held, ends: source, strings, panels, through, each: given.each });
    return {
      battery,
      amps: mostAmps,
      pv: [pv, input],
      gives: (output) => {
        through.output = output;
      },
    };
  }

  /** Panels without a controller: the battery holds them at its own voltage. */
  tie(draft: CircuitDraft, elements: Map<Source, Element>): void {
    const { installation, stated, connections } = this;
    for (const string of installation.strings) {
      const [first] = string.panels;
      if (first === undefined || string.panels.some((panel) => elements.has(panel))) continue;
      if (string.panels.some(({ part }) => stated.on.get(part.name) === false)) continue;
      const port = { part: first.part, plus: string.plus, minus: string.minus };
      const battery = batteryReached(port, installation, stated, connections);
      if (battery === undefined || !this.hasCurve(string)) continue;
      const held = this.newlyHeld(voltsOf(battery, stated), [string]);
      const { each } = givenAt(held.curves, held.volts);
      const panels = [give(draft, string, held.curves[0], each[0] ?? 0, elements)];
      this.placed.push({ held, ends: string, strings: [string], panels, through: undefined, each });
    }
  }

  private curveIn(part: Part): PanelCurve | undefined {
    return this.curves.curve(part, this.installation.model, this.stated, this.purpose);
  }

  private hasCurve({ panels }: PanelString): boolean {
    return panels.every(({ part }) => this.curveIn(part) !== undefined);
  }

  /** Before anything flows. */
  private newlyHeld(volts: number, strings: readonly PanelString[]): Held {
    const curves = strings.map(({ panels }) => ({
      panels: panels.flatMap(({ part }) => this.curveIn(part) ?? []),
      ohms: 0,
      lostVolts: 0,
    }));
    return { volts, amps: 0, gaveAll: true, bestVolts: undefined, curves };
  }

  /** Takes over what a solution tells; the greatest change in watt. */
  settle(across: (port: Pick<Port, 'plus' | 'minus'>) => number, givenBy: (source: Source) => number): number {
    let change = 0;
    for (const { held, ends, strings, each, through } of this.placed) {
      const volts = across(ends);
      const before = held.volts;
      held.volts = volts;
      const amps = through === undefined ? Math.max(...each) : Math.max(0, givenBy(through.source));
      change = Math.max(change, Math.abs(volts - before) * Math.max(1, amps));
      if (through !== undefined) {
        const gaveAll = amps >= through.mostAmps * (1 - 1e-9);
        const expected = held.gaveAll ? through.mostAmps : held.amps;
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
      const { held, through } = placed;
      if (through === undefined) placed.each = givenAt(held.curves, held.volts).each;
      else {
        const { source, input, output, ratedAmps } = through;
        const { given, mostAmps, watts } = planOf(source.part, held, ratedAmps);
        placed.each = given.each;
        through.mostAmps = mostAmps;
        this.panelWatts.set(source.part, watts);
        circuit.setEmf(input, inputVolts(given));
        if (output?.as === 'current') circuit.setAmps(output, -mostAmps);
        else if (output?.as === 'limited') circuit.setMostAmps(output, mostAmps);
      }
      placed.panels.forEach((panels, i) => {
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

function planOf({ facts }: Part, held: Held, ratedAmps: number): Plan {
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

/**
 * One panel of a string drives its current. The others stand behind it on the tangent of their curve, so that they pass it
 * on at their voltage, and where strings are joined halfway too, no current runs round between panels that differ.
 */
function give(
  draft: CircuitDraft,
  { panels }: PanelString,
  curves: StringCurve | undefined,
  amps: number,
  elements: Map<Source, Element>,
): readonly Element[] {
  return panels.map((panel, i) => {
    const curve = i === 0 ? undefined : curves?.panels[i];
    const behind = curve === undefined ? undefined : tangent(curve, amps);
    const element = behind === undefined ? draft.current(panel, -amps) : draft.emf(panel, behind.volts, behind.ohms);
    elements.set(panel, element);
    return element;
  });
}

function tangent(curve: PanelCurve, amps: number): { readonly volts: number; readonly ohms: number } {
  const { volts, slope } = voltsAt(curve, amps);
  const ohms = Math.min(mostSlopeOhms, Math.max(regulatorOhms, -slope));
  return { volts: volts + ohms * amps, ohms };
}

function voltsOf({ sources }: Supply, stated: Case): number {
  return sources.reduce((sum, { part }) => sum + batteryVolts(part, stated), 0);
}

/** Behind its resistance, so that the panel side itself stands at the voltage. */
function inputVolts({ volts, amps }: Given): number {
  return volts - regulatorOhms * amps;
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

/** Strings that feed a controller; one that reaches several is taken to feed the first of them by name. */
function stringsTo(pv: Draw, { strings, draws }: Installation, stated: Case, { joined }: Connections): PanelString[] {
  const rivals = draws.filter((draw) => draw.is === 'pv' && draw.part.name < pv.part.name);
  return stringsAt(pv, strings, joined).filter(
    (string) =>
      string.panels.every(({ part }) => stated.on.get(part.name) !== false) &&
      !rivals.some((draw) => stringsAt(draw, [string], joined).length > 0),
  );
}
