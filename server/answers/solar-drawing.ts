/**
 * Panels and what takes their current as they are drawn into the circuit of a case, with what they give before anything has
 * flowed.
 */
import { keptWith } from '../model/lazily.ts';
import type { Case, Part } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { type PanelCurve, voltsAt } from '../physics/panel-curve.ts';
import { type Given, givenAt } from '../physics/panel-strings.ts';
import { batteryReached, batteryVolts } from './charging.ts';
import type { CircuitDraft, Element } from './circuit-draft.ts';
import type { Connections } from './contacts-in-case.ts';
import type { Installation } from './installation.ts';
import type { Purpose } from './loads.ts';
import { type PanelString, stringsAt } from './panel-side.ts';
import { PanelCurves } from './panels.ts';
import type { Draw, Port, Source } from './ports.ts';
import { newlyHeld, planOf } from './sun-plan.ts';
import type { Supply } from './supplies.ts';

/** Resistance of a regulated output or input, so that it is never ideal (common practice, no source). */
export const regulatorOhms = 0.001;

/** What is told of a controller as it is put into the circuit. */
export interface SunCharge {
  readonly battery: Supply;
  /** What it can give at first, in ampere. */
  readonly amps: number;
  readonly pv: readonly [Draw, Element];
  /** Its output is this element, and gives what its panels let it; else it gives what it is said to, panels or not. */
  gives(output: Element): void;
}

/** Strings that one thing holds: where, their elements, and what they give at first. */
export interface PanelsDrawn {
  readonly ends: Pick<Port, 'plus' | 'minus'>;
  readonly strings: readonly PanelString[];
  /** By string and panel. */
  readonly panels: readonly (readonly Element[])[];
  readonly curves: readonly (readonly PanelCurve[])[];
  /** Of the battery, before anything flows. */
  readonly volts: number;
  readonly each: readonly number[];
  /** Where a controller stands between panels and battery. */
  readonly through: Through | undefined;
}

export interface Through {
  readonly pv: Port;
  readonly input: Element;
  readonly source: Source;
  readonly ratedAmps: number;
  /** The output, where it gives what the panels let it. */
  output: Element | undefined;
  /** At first. */
  readonly mostAmps: number;
  readonly watts: number;
  readonly bestVolts: number | undefined;
}

/** Behind the open-circuit voltage, so that panels side by side that differ drive nothing to speak of through each other. */
const openOhms = 1e4;

/** Beyond it a tangent would be all resistance, and its voltage all rounding. */
const mostSlopeOhms = 1e4;

const curvesOf = keptWith((_: Layout) => new PanelCurves());

export class SolarDrawing {
  readonly drawn: PanelsDrawn[] = [];
  private readonly curves: PanelCurves;

  constructor(
    private readonly installation: Installation,
    private readonly stated: Case,
    private readonly connections: Connections,
    private readonly purpose: Purpose,
  ) {
    this.curves = curvesOf(installation.layout);
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
    const volts = voltsOf(battery, stated);
    if (strings.length === 0 || !(volts > 0)) return undefined;
    const curves = strings.map((string) => this.curvesIn(string));
    const held = newlyHeld(volts, curves);
    const { given, mostAmps, watts } = planOf(source.part, held, ratedAmps);
    const { bestVolts } = held;
    const { each } = given;
    const input = draft.emf(pv, inputVolts(given), regulatorOhms);
    const through: Through = { pv, input, source, ratedAmps, output: undefined, mostAmps, watts, bestVolts };
    const panels = strings.map((string, i) => give(draft, string, curves[i] ?? [], each[i] ?? 0, elements));
    this.drawn.push({ ends: source, strings, panels, curves, volts, each, through });
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
      const volts = voltsOf(battery, stated);
      const curves = [this.curvesIn(string)];
      const { each } = givenAt(newlyHeld(volts, curves).curves, volts);
      const panels = [give(draft, string, curves[0] ?? [], each[0] ?? 0, elements)];
      this.drawn.push({ ends: string, strings: [string], panels, curves, volts, each, through: undefined });
    }
  }

  /** Panels in the sun that no controller takes current from stand at their open-circuit voltage: they are live, not dead. */
  standOpen(draft: CircuitDraft, elements: Map<Source, Element>): void {
    const { installation, stated } = this;
    for (const string of installation.strings) {
      const { panels } = string;
      if (panels.some((panel) => elements.has(panel) || stated.on.get(panel.part.name) === false)) continue;
      if (!this.hasCurve(string)) continue;
      const curves = this.curvesIn(string);
      panels.forEach((panel, i) => {
        const curve = curves[i];
        if (curve !== undefined) elements.set(panel, draft.emf(panel, voltsAt(curve, 0).volts, openOhms));
      });
    }
  }

  private curveIn(part: Part): PanelCurve | undefined {
    return this.curves.curve(part, this.installation.model, this.stated, this.purpose);
  }

  private hasCurve({ panels }: PanelString): boolean {
    return panels.every(({ part }) => this.curveIn(part) !== undefined);
  }

  private curvesIn({ panels }: PanelString): PanelCurve[] {
    return panels.flatMap(({ part }) => this.curveIn(part) ?? []);
  }
}

/**
 * One panel of a string drives its current. The others stand behind it on the tangent of their curve, so that they pass it
 * on at their voltage, and where strings are joined halfway too, no current runs round between panels that differ.
 */
function give(
  draft: CircuitDraft,
  { panels }: PanelString,
  curves: readonly PanelCurve[],
  amps: number,
  elements: Map<Source, Element>,
): readonly Element[] {
  return panels.map((panel, i) => {
    const curve = i === 0 ? undefined : curves[i];
    const behind = curve === undefined ? undefined : tangent(curve, amps);
    const element = behind === undefined ? draft.current(panel, -amps) : draft.emf(panel, behind.volts, behind.ohms);
    elements.set(panel, element);
    return element;
  });
}

/** A panel that passes a current, as a source that does so at its voltage. */
export function tangent(curve: PanelCurve, amps: number): { readonly volts: number; readonly ohms: number } {
  const { volts, slope } = voltsAt(curve, amps);
  const ohms = Math.min(mostSlopeOhms, Math.max(regulatorOhms, -slope));
  return { volts: volts + ohms * amps, ohms };
}

function voltsOf({ sources }: Supply, stated: Case): number {
  return sources.reduce((sum, { part }) => sum + batteryVolts(part, stated), 0);
}

/** Behind its resistance, so that the panel side itself stands at the voltage. */
export function inputVolts({ volts, amps }: Given): number {
  return volts - regulatorOhms * amps;
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
