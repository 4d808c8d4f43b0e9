/** Which batteries stand together as one bank, and what charges it with how much at most. */
import { keptWhile } from '../model/lazily.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Edge, Layout } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { Installation } from './installation.ts';
import { stringsAt } from './panel-side.ts';
import type { Source } from './ports.ts';
import { isBattery, type Supply } from './supplies.ts';

export interface Charger {
  readonly part: Part;
  /** Greatest current it can give: its own, or what its panels can at the bank’s nominal voltage where that is less. */
  readonly amps: number;
  readonly limitedBy: 'itself' | 'panels';
}

export interface BatteryBank {
  /** Batteries in series, from minus to plus; the strings are in parallel, and have their isolators closed. */
  readonly strings: readonly (readonly Part[])[];
  readonly batteries: readonly Part[];
  /** Strings among them that no switch parts from one another: by fuses, breakers and cables alone. */
  readonly firm: readonly (readonly (readonly Part[])[])[];
  readonly nominalVolts: number;
  /** Chargers, controllers and inverters that charge; an alternator holds a voltage, and gives what the battery takes. */
  readonly chargers: readonly Charger[];
  readonly alternators: readonly Part[];
}

const kept = keptWhile<Layout, readonly BatteryBank[]>();

/** The same ones while every source charges the same, and the voltages of all are what they were. */
export function banksOf(installation: Installation): readonly BatteryBank[] {
  const { layout, supplies, sources, usualFeeder, nominalOf } = installation;
  const fed = sources.filter(isCharger).map(usualFeeder);
  return kept(layout, [...supplies.map(nominalOf), ...fed], () => banksIn(installation));
}

function isCharger({ is, part }: Source): boolean {
  return is !== 'battery' && is !== 'panel' && is !== 'load-output' && part.kind.word !== 'converter';
}

function banksIn(installation: Installation): BatteryBank[] {
  const { supplies, sources, usualFeeder, nominalOf } = installation;
  const batteries = supplies.filter(isBattery);
  const closed = groupsOf(batteries, installation, isClosedByHand);
  const bankOf = new Map<Supply, { chargers: Charger[]; alternators: Part[] }>();
  const banks = closed.map((group) => {
    const charged = { chargers: [] as Charger[], alternators: [] as Part[] };
    for (const supply of group) bankOf.set(supply, charged);
    return {
      strings: group.map(partsOf),
      batteries: [...new Set(group.flatMap(partsOf))],
      firm: groupsOf(group, installation, isFirm).map((firm) => firm.map(partsOf)),
      nominalVolts: nominalOf(group[0]),
      ...charged,
    };
  });
  for (const source of sources) {
    if (!isCharger(source)) continue;
    const fed = usualFeeder(source);
    const bank = fed === undefined ? undefined : bankOf.get(fed);
    if (bank === undefined) continue;
    if (source.is === 'alternator') bank.alternators.push(source.part);
    else bank.chargers.push(chargerOf(source, nominalOf(fed), installation));
  }
  return banks;
}

const partsOf = ({ sources }: Supply): Part[] => sources.map(({ part }) => part);

/** Supplies whose both ends are joined. */
function groupsOf(
  supplies: readonly Supply[],
  { network, wiring }: Installation,
  passes: (edge: Edge) => boolean,
): Supply[][] {
  if (supplies.length < 2) return supplies.map((supply) => [supply]);
  const sets = new UnionFind(wiring.terminals.length);
  for (const edge of network.edges) if (passes(edge)) sets.join(edge.from.index, edge.to.index);
  const at = (terminal: Terminal) => sets.find(terminal.index);
  const groups = new Map<string, Supply[]>();
  for (const supply of supplies) {
    const key = `${at(supply.plus)} ${at(supply.minus)}`;
    groups.set(key, [...(groups.get(key) ?? []), supply]);
  }
  return [...groups.values()];
}

function isFirm(edge: Edge): boolean {
  if (edge.is !== 'contact') return true;
  return edge.contact.operated === 'fixed' || (edge.contact.operated === 'hand' && edge.contact.protects);
}

function isClosedByHand(edge: Edge): boolean {
  return edge.is !== 'contact' || edge.contact.operated === 'fixed' || edge.contact.operated === 'hand';
}

function chargerOf(source: Source, volts: number, { draws, strings, wiring }: Installation): Charger {
  const { part, limitAmps = 0 } = source;
  const panels = draws.find((draw) => draw.is === 'pv' && draw.part === part);
  if (panels === undefined || part.kind.word !== 'controller' || !(volts > 0))
    return { part, amps: limitAmps, limitedBy: 'itself' };
  const net = (terminal: Terminal) => wiring.whole.part[wiring.node(terminal)];
  const watts = stringsAt(panels, strings, (a, b) => net(a) === net(b)).reduce((sum, string) => sum + string.watts, 0);
  const amps = watts / volts;
  // Without panels nothing is known of what may still be put there.
  return watts > 0 && amps < limitAmps
    ? { part, amps, limitedBy: 'panels' }
    : { part, amps: limitAmps, limitedBy: 'itself' };
}
