/** Sources as a case has them: electromotive forces, and what each charger, alternator, controller and converter gives. */
import type { Case, Part } from '../model/model.ts';
import { defaultInternalOhms, electromotiveForce } from '../tables/battery.ts';
import type { CircuitDraft, Element } from './circuit-draft.ts';
import type { Connections, Settling } from './contacts-in-case.ts';
import { type Installation, isBattery } from './installation.ts';
import { type PanelString, stringsAt } from './panel-side.ts';
import type { Draw, Port, Source } from './ports.ts';
import type { Supply } from './supplies.ts';

/** Resistance of a regulated output, so that it is never ideal (common practice, no source). */
const regulatorOhms = 0.001;

/** Part of the panels' power that a controller hands on, until panels and controllers have curves of their own. */
export const controllerShare = 0.95;

/** Electromotive force of a battery: said in volts, by its charge, else its stated voltage. */
export function batteryVolts(part: Part, stated: Case): number {
  const nominal = part.facts.number('voltage') ?? 12;
  const said = stated.voltsOf.get(part.name);
  if (said !== undefined) return said;
  const charge = stated.chargeOf.get(part.name) ?? stated.charge;
  return charge === undefined ? nominal : electromotiveForce(chemistry(part), nominal, charge);
}

/** Internal resistance: as stated, else a default by chemistry and capacity; never 0. */
export function batteryOhms(part: Part): number {
  const stated = part.facts.number('internal');
  if (stated !== undefined && stated > 0) return stated;
  const coulombs = part.facts.number('capacity');
  return defaultInternalOhms(
    chemistry(part),
    part.facts.number('voltage') ?? 12,
    coulombs === undefined ? undefined : coulombs / 3600,
  );
}

function chemistry(part: Part): string {
  return part.facts.word('chemistry') ?? 'lead-acid';
}

/** An inverter with a charger in it charges when the case has all sources on, unless it is said itself to be on or off. */
export function chargesFromMains(part: Part, stated: Case): boolean {
  return part.facts.says('charges') && stated.allSources === true && stated.on.get(part.name) === undefined;
}

/** Off unless the case says otherwise: alternators and chargers. On unless it does: converters, controllers, panels, batteries. */
function isOn({ is, part }: Source, stated: Case): boolean {
  if (is === 'mains') return chargesFromMains(part, stated);
  const said = stated.on.get(part.name);
  if (said !== undefined) return said;
  if (is === 'alternator' || part.kind.word === 'charger') return stated.allSources ?? false;
  if (part.kind.word === 'controller') return stated.allSources ?? true;
  return true;
}

export interface SourcesInCase {
  readonly elements: ReadonlyMap<Source, Element>;
  /** Power that comes from panels, in watt at the battery's voltage, by controller or charger. */
  readonly panelWatts: ReadonlyMap<Part, number>;
}

export function addSources(
  draft: CircuitDraft,
  installation: Installation,
  stated: Case,
  connections: Connections,
  settling: Settling,
): SourcesInCase {
  const elements = new Map<Source, Element>();
  const panelWatts = new Map<Part, number>();
  const sun = stated.sun ?? 0;
  // In the implied case `charging` every source gives its most; in a stated one an alternator regulates its voltage.
  const greatest = stated.implied && stated.allSources === true;
  const feed = (source: Source, amps: number) => {
    if (amps > 0) elements.set(source, draft.current(source, -amps));
  };
  for (const source of installation.sources) {
    const { is, part, limitAmps = 0, nominalVolts = 0 } = source;
    const on = isOn(source, stated);
    switch (is) {
      case 'battery':
        if (on) elements.set(source, draft.emf(source, batteryVolts(part, stated), batteryOhms(part)));
        break;
      case 'mains':
        if (on) feed(source, limitAmps);
        break;
      case 'alternator': {
        const volts = part.facts.number('voltage') ?? 0;
        if (on && greatest) feed(source, limitAmps);
        else if (on && limitAmps > 0 && volts > 0)
          elements.set(source, draft.regulated(source, volts, regulatorOhms, limitAmps));
        break;
      }
      case 'output':
        if (part.kind.word === 'converter') {
          if (on && !settling.unfed.has(part) && limitAmps > 0 && nominalVolts > 0)
            elements.set(source, draft.regulated(source, nominalVolts, regulatorOhms, limitAmps));
        } else {
          const sunAmps =
            sun > 0 ? panelAmps(draft, installation, stated, connections, source, elements, panelWatts) : 0;
          const charges = part.kind.word === 'charger' && on && !settling.unfed.has(part);
          if (charges && batteryReached(source, installation, stated, connections) !== undefined)
            feed(source, limitAmps);
          else feed(source, sunAmps);
        }
        break;
    }
  }
  if (sun > 0) tiedPanels(draft, installation, stated, connections, elements);
  return { elements, panelWatts };
}

/** The battery that a source charges as the contacts stand: the nearest. */
function batteryReached(
  port: Port,
  installation: Installation,
  stated: Case,
  { joined }: Connections,
): Supply | undefined {
  return installation.feeder(
    port,
    (supply) =>
      isBattery(supply) &&
      supply.sources.every(({ part }) => stated.on.get(part.name) !== false) &&
      joined(supply.plus, port.plus) &&
      joined(supply.minus, port.minus),
  );
}

/**
 * What a controller (or a charger's panel input) gives its battery: the least of its output rating and 0.95 of its panels'
 * power × sun over the battery's voltage. Until panels have a curve, a string gives its current at greatest power times the
 * sun, as far as the controller takes it, and the controller holds its panel side at the strings' voltage there: so the
 * conductors of the panel side carry what they carry.
 */
function panelAmps(
  draft: CircuitDraft,
  installation: Installation,
  stated: Case,
  connections: Connections,
  source: Source,
  elements: Map<Source, Element>,
  panelWatts: Map<Part, number>,
): number {
  const { part, limitAmps = 0 } = source;
  const { sun = 0 } = stated;
  const pv = installation.draws.find((draw) => draw.is === 'pv' && draw.part === part);
  const off = stated.on.get(part.name) === false || (part.kind.word === 'controller' && !isOn(source, stated));
  const battery = pv === undefined || off ? undefined : batteryReached(source, installation, stated, connections);
  if (pv === undefined || battery === undefined) return 0;
  const strings = stringsTo(pv, installation, stated, connections);
  const volts = battery.sources.reduce((sum, one) => sum + batteryVolts(one.part, stated), 0);
  const watts = strings.reduce((sum, string) => sum + string.watts, 0);
  const offered = volts > 0 ? (controllerShare * watts * sun) / volts : 0;
  const taken = Math.min(limitAmps, offered);
  if (!(taken > 0)) return 0;
  panelWatts.set(part, taken * volts);
  draft.emf(pv, Math.min(...strings.map(({ vmp }) => vmp)), regulatorOhms);
  for (const { panels, imp } of strings) giveString(draft, panels, (imp * sun * taken) / offered, elements);
  return taken;
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

/** Panels without a controller: a battery holds them below their greatest power, where they give their short-circuit current. */
function tiedPanels(
  draft: CircuitDraft,
  installation: Installation,
  stated: Case,
  connections: Connections,
  elements: Map<Source, Element>,
): void {
  for (const string of installation.strings) {
    if (string.panels.some((panel) => elements.has(panel) || stated.on.get(panel.part.name) === false)) continue;
    const port = { part: (string.panels[0] as Source).part, plus: string.plus, minus: string.minus };
    if (batteryReached(port, installation, stated, connections) === undefined) continue;
    const amps = (stated.sun ?? 0) * Math.min(...string.panels.map(({ limitAmps }) => limitAmps ?? 0));
    giveString(draft, string.panels, amps, elements);
  }
}

/** One panel of a string drives its current; the others stand behind it at their voltage and pass it on. */
function giveString(
  draft: CircuitDraft,
  panels: readonly Source[],
  amps: number,
  elements: Map<Source, Element>,
): void {
  if (!(amps > 0)) return;
  panels.forEach((panel, i) => {
    const volts = panel.part.facts.number('vmp') ?? 0;
    elements.set(panel, i === 0 ? draft.current(panel, -amps) : draft.emf(panel, volts, regulatorOhms));
  });
}
