/** Loads as a case has them: which are on, and what each draws. */
import type { Case, Part } from '../model/model.ts';
import type { CircuitDraft, Element } from './circuit-draft.ts';
import type { Connections, Settling } from './contacts-in-case.ts';
import type { Installation } from './installation.ts';
import { type Draw, lowestInputVolts, type Source } from './ports.ts';
import { chargesFromMains } from './sources.ts';

/** `actual`: as it is; `design`: constant-power parts at their lowest voltage, every input by itself, no cranking. */
export type Purpose = 'actual' | 'design';

/** A load is off unless the case says it is on, by its name or with all loads; nobody means the starter motor by these. */
export function isOn({ part, cranking }: Draw, stated: Case): boolean {
  if (part.kind.word === 'inverter' && chargesFromMains(part, stated)) return false;
  return stated.on.get(part.name) ?? (stated.allLoads === true && !cranking);
}

/** Inputs of chargers and converters are put in with nothing: what they take in follows from what they give out. */
export function addDraws(
  draft: CircuitDraft,
  installation: Installation,
  stated: Case,
  settling: Settling,
  reached: (draw: Draw) => boolean,
  /** Those of some draws that nothing can flow through as the contacts stand. */
  cutOff: (draws: readonly Draw[]) => ReadonlySet<Draw>,
  purpose: Purpose,
): Map<Draw, Element> {
  const elements = new Map<Draw, Element>();
  const supplied = new Set<Part>();
  const dead = purpose === 'actual' ? deadAmong(installation.draws, stated, reached, cutOff) : none;
  for (const draw of installation.draws) {
    const { part, cranking } = draw;
    if (draw.is === 'pv' || draw.is === 'pass') continue;
    if (draw.is === 'load' && (!isOn(draw, stated) || (purpose === 'design' && cranking))) continue;
    // A current that nothing drives would be forced through whatever else is there.
    if (purpose === 'design' && !reached(draw)) continue;
    let { as, amount } = draw;
    if (draw.is === 'input') {
      if (settling.unfed.has(part) || !reached(draw)) continue;
      // Of several inputs the first that is fed carries it all; for design currents each in its turn, so all do.
      if (purpose === 'actual' && supplied.has(part)) continue;
      supplied.add(part);
      amount = 0;
    } else if (!(amount > 0)) continue;
    if (draw.is === 'load' && dead.has(draw)) {
      drawDead(draft, draw, installation.systemVolts);
      continue;
    }
    if (as === 'power' && purpose === 'design') {
      const lowest = lowestVoltsOf(draw, installation);
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

const none: ReadonlySet<Draw> = new Set();

/** What takes nothing joins its terminals all the same: behind a negative that is open its minus stands at the voltage of its plus. */
function drawDead(draft: CircuitDraft, { plus, minus, as, amount }: Draw, volts: number): void {
  draft.conductor(plus, minus, as === 'power' ? volts ** 2 / amount : as === 'current' ? volts / amount : amount);
}

/** Loads that are on and that nothing reaches, as behind an open isolator: they take nothing, whatever they are. */
function deadAmong(
  draws: readonly Draw[],
  stated: Case,
  reached: (draw: Draw) => boolean,
  cutOff: (draws: readonly Draw[]) => ReadonlySet<Draw>,
): ReadonlySet<Draw> {
  const isDrawn = (draw: Draw) => draw.is === 'coil' || (draw.is === 'load' && isOn(draw, stated));
  const on = draws.filter((draw) => draw.amount > 0 && isDrawn(draw));
  // Whatever a supply reaches the right way round is fed.
  return on.every((draw) => draw.as === 'resistance' || reached(draw)) ? none : cutOff(on);
}

/** What an input draws for a power that it takes in: that power, or for design currents what it makes at the lowest voltage. */
export function inputAmount(draw: Draw, watts: number, installation: Installation, purpose: Purpose): number {
  return purpose === 'design' ? watts / lowestVoltsOf(draw, installation) : watts;
}

function lowestVoltsOf(draw: Draw, { nominalOf, usualFeeder }: Installation): number {
  return lowestInputVolts(draw, nominalOf(usualFeeder(draw)));
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
