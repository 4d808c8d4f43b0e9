/** Sources as a case has them: electromotive forces, and what each charger, alternator, controller and converter gives. */
import type { Case, Part } from '../model/model.ts';
import { batteryOhms, batteryReached, batteryVolts, chargeVoltsOf } from './charging.ts';
import type { CircuitDraft, Element } from './circuit-draft.ts';
import type { Connections, Settling } from './contacts-in-case.ts';
import type { Installation } from './installation.ts';
import type { Purpose } from './loads.ts';
import type { Draw, Source } from './ports.ts';
import { regulatorOhms, type SolarDrawing } from './solar-drawing.ts';
import type { Supply } from './supplies.ts';

/** An inverter with a charger in it charges when the case has all sources on, unless it is said itself to be on or off. */
export function chargesFromMains(part: Part, stated: Case): boolean {
  return part.facts.says('charges') && stated.allSources === true && stated.on.get(part.name) === undefined;
}

/** Off unless the case says otherwise: alternators and chargers. On unless it does: converters, controllers, panels, batteries. */
export function isOn({ is, part }: Source, stated: Case): boolean {
  if (is === 'mains') return chargesFromMains(part, stated);
  const said = stated.on.get(part.name);
  if (said !== undefined) return said;
  if (is === 'alternator' || part.kind.word === 'charger') return stated.allSources ?? false;
  if (part.kind.word === 'controller') return stated.allSources ?? true;
  return true;
}

export interface SourcesInCase {
  readonly elements: ReadonlyMap<Source, Element>;
  /** Panel sides of controllers and chargers. */
  readonly panelSides: ReadonlyMap<Draw, Element>;
}

export function addSources(
  draft: CircuitDraft,
  installation: Installation,
  stated: Case,
  connections: Connections,
  settling: Settling,
  solar: SolarDrawing,
  purpose: Purpose,
): SourcesInCase {
  const elements = new Map<Source, Element>();
  const panelSides = new Map<Draw, Element>();
  const sunny = (stated.sun ?? 0) > 0;
  // In the implied case `charging` every source gives its most, and so it does for design currents; otherwise it regulates.
  const implied = stated.implied && stated.allSources === true;
  const greatest = implied || purpose === 'design';
  const feed = (source: Source, amps: number) => {
    elements.set(source, draft.current(source, -amps));
  };
  const chargeTo = (source: Source, battery: Supply, amps: number): Element | undefined => {
    if (!((source.limitAmps ?? 0) > 0)) return undefined;
    if (greatest) feed(source, amps);
    else elements.set(source, draft.regulated(source, chargeVoltsOf(source.part, battery), regulatorOhms, amps));
    return elements.get(source);
  };
  for (const source of installation.sources) {
    const { is, part, limitAmps = 0, nominalVolts = 0 } = source;
    const on = isOn(source, stated);
    switch (is) {
      case 'battery':
        if (on) elements.set(source, draft.emf(source, batteryVolts(part, stated), batteryOhms(part)));
        break;
      case 'mains': {
        const battery = on ? batteryReached(source, installation, stated, connections) : undefined;
        if (battery !== undefined) chargeTo(source, battery, limitAmps);
        break;
      }
      case 'alternator': {
        const volts = part.facts.number('voltage') ?? 0;
        // Its greatest current needs a battery that takes it: forced through anything else it would make any voltage.
        if (on && implied && limitAmps > 0 && batteryReached(source, installation, stated, connections) !== undefined)
          feed(source, limitAmps);
        else if (on && limitAmps > 0 && volts > 0)
          elements.set(source, draft.regulated(source, volts, regulatorOhms, limitAmps));
        break;
      }
      case 'output':
        if (part.kind.word === 'converter') {
          if (on && !settling.unfed.has(part) && limitAmps > 0 && nominalVolts > 0)
            elements.set(source, draft.regulated(source, nominalVolts, regulatorOhms, limitAmps));
        } else {
          const fromInput = part.kind.word === 'charger' && on && !settling.unfed.has(part);
          const mayCharge = (on || part.kind.word === 'charger') && stated.on.get(part.name) !== false;
          const sun = sunny && mayCharge ? solar.charge(draft, source, limitAmps, elements) : undefined;
          if (sun !== undefined) panelSides.set(...sun.pv);
          const battery =
            sun?.battery ?? (fromInput ? batteryReached(source, installation, stated, connections) : undefined);
          if (battery === undefined) break;
          if (fromInput || sun === undefined) chargeTo(source, battery, limitAmps);
          else {
            const element = chargeTo(source, battery, sun.amps);
            if (element !== undefined) sun.gives(element);
          }
        }
        break;
    }
  }
  if (sunny) solar.tie(draft, elements);
  if (sunny && purpose === 'actual') solar.standOpen(draft, elements);
  return { elements, panelSides };
}
