/** Loads as a case has them: which are on, and what each draws. */
import type { Case, Part } from '../model/model.ts';
import type { CircuitDraft, Element } from './circuit-draft.ts';
import type { Connections, Settling } from './contacts-in-case.ts';
import type { Installation } from './installation.ts';
import { type Draw, lowestInputVolts, type Source } from './ports.ts';
import { chargesFromMains } from './sources.ts';

/** `actual`: as it is; `design`: constant-power parts at their lowest voltage, every input by itself, no cranking. */
export type Purpose = 'actual' | 'design';

/** A load is off unless the case says it is on, by its name or with all loads. */
export function isOn({ part }: Draw, stated: Case): boolean {
  if (part.kind.word === 'inverter' && chargesFromMains(part, stated)) return false;
  return stated.on.get(part.name) ?? stated.allLoads ?? false;
}

/** `inputWatts` is what a charger or converter takes in for what it gives out. */
export function addDraws(
  draft: CircuitDraft,
  installation: Installation,
  stated: Case,
  settling: Settling,
  inputWatts: ReadonlyMap<Part, number>,
  reached: (draw: Draw) => boolean,
  purpose: Purpose,
): Map<Draw, Element> {
  const elements = new Map<Draw, Element>();
  const supplied = new Set<Part>();
  for (const draw of installation.draws) {
    const { part, cranking } = draw;
    if (draw.is === 'pv' || draw.is === 'pass') continue;
    if (draw.is === 'load' && (!isOn(draw, stated) || (purpose === 'design' && cranking))) continue;
    let { as, amount } = draw;
    if (draw.is === 'input') {
      if (settling.unfed.has(part) || !reached(draw)) continue;
      // Of several inputs the first that is fed carries it all; for design currents each in its turn, so all do.
      if (purpose === 'actual' && supplied.has(part)) continue;
      supplied.add(part);
      amount = inputWatts.get(part) ?? 0;
    }
    if (!(amount > 0)) continue;
    if (as === 'power' && purpose === 'design') {
      const lowest = lowestInputVolts(draw, installation.nominalOf(installation.usualFeeder(draw)));
      if (!(lowest > 0)) continue;
      as = 'current';
      amount /= lowest;
    }
    if (as === 'power') elements.set(draw, draft.power(draw, amount));
    else if (as === 'current') elements.set(draw, draft.current(draw, amount));
    else elements.set(draw, draft.conductor(draw.plus, draw.minus, amount));
  }
  return elements;
}

/** Whether a source that gives something in this case stands behind a port as the contacts stand. */
export function reachesSupply(
  draw: Draw,
  { supplies }: Installation,
  { joined }: Connections,
  giving: ReadonlyMap<Source, Element>,
): boolean {
  return supplies.some(
    ({ sources, part, plus, minus }) =>
      part !== draw.part &&
      sources.every((source) => giving.has(source)) &&
      joined(plus, draw.plus) &&
      joined(minus, draw.minus),
  );
}
