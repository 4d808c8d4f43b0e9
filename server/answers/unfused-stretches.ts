/**
 * Stretches that a battery drives with no protective device. All that batteries reach without passing a device is parted:
 * the ways from a battery to the devices belong to those devices and to the limit of their length; what branches off to
 * something else, or leads to another battery, is a stretch that wants a device of its own.
 */
import { keptWith } from '../model/lazily.ts';
import type { Core, Part } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { CoreFigures, UnfusedStretch } from './answers.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import type { Installation } from './installation.ts';
import { isBattery } from './supplies.ts';
import { coresOf, type Way } from './wiring.ts';

interface Reach {
  /** By node reached: the way it was reached by (none at a battery), ways from the battery, and that battery. */
  readonly way: Way | undefined;
  readonly before: number | undefined;
  readonly depth: number;
  readonly battery: Part;
}

/** What a battery drives besides other batteries, at a node. */
type Bare = ReadonlyMap<number, readonly Part[]>;

/** What batteries reach without a device, as parts are joined. */
interface Driven {
  readonly reached: ReadonlyMap<number, Reach>;
  readonly bare: Bare;
  readonly trunk: ReadonlySet<number>;
  readonly branches: readonly (readonly Way[])[];
}

const drivenIn = keptWith((layout: Layout): Driven | undefined => {
  const arrangement = arrangementOf(layout);
  const { sources, wiring } = arrangement;
  const reached = reachedFrom(arrangement);
  if (reached.size === 0) return undefined;
  // The minus of another battery in series is no dead end: what is driven there is driven by both.
  const joints = sources.flatMap(({ is, minus }) => (is === 'battery' ? wiring.node(minus) : []));
  const trunk = trunkOf(reached, wiring.ways, joints);
  return { reached, bare: bareEnds(arrangement), trunk, branches: [...branches(reached, trunk, wiring.ways)] };
});

export function unfusedStretches(
  installation: Installation,
  figures: ReadonlyMap<Core, CoreFigures>,
  lengthLimit: (cores: readonly Core[]) => number,
): UnfusedStretch[] {
  const { network, layout } = installation;
  const driven = drivenIn(layout);
  if (driven === undefined) return [];
  const { reached, bare, trunk } = driven;
  const cored = (way: Way) => coresOf(way, network);
  // Vehicles have their alternator on the battery by a short cable without a fuse (common practice, no source).
  const isAlternatorLead = (feeds: readonly Part[], cores: readonly Core[]) =>
    feeds.length > 0 && feeds.every(({ kind }) => kind.word === 'alternator') && metres(cores) <= lengthLimit(cores);
  const stretches: UnfusedStretch[] = [];
  // What stands on the way to devices; the device that it wants is one for all that branches off behind it.
  for (const node of trunk) {
    const feeds = bare.get(node);
    const cores = feeds === undefined ? [] : wayTo(node, reached).flatMap(cored);
    if (feeds !== undefined && cores.length > 0 && !isAlternatorLead(feeds, cores))
      stretches.push({ cores, batteries: [reached.get(node)?.battery ?? []].flat(), feeds });
  }
  const onTheWay = [...stretches];
  const isBehind = (nodes: readonly number[]) => {
    const before = new Set(nodes.flatMap((node) => (trunk.has(node) ? wayTo(node, reached).flatMap(cored) : [])));
    return onTheWay.some(({ cores }) => cores.every((core) => before.has(core)));
  };
  for (const ways of driven.branches) {
    const nodes = [...new Set(ways.flatMap(({ a, b }) => [a, b]))];
    const depth = ({ a, b }: Way) => Math.min(reached.get(a)?.depth ?? 0, reached.get(b)?.depth ?? 0);
    const cores = [...ways].sort((one, other) => depth(one) - depth(other)).flatMap(cored);
    const batteries = [
      ...new Set(nodes.flatMap((node) => (trunk.has(node) ? (reached.get(node)?.battery ?? []) : []))),
    ].sort((one, other) => (one.name < other.name ? -1 : 1));
    const feeds = [...new Set(nodes.flatMap((node) => (trunk.has(node) ? [] : (bare.get(node) ?? []))))];
    const [first] = cores;
    if (first === undefined || batteries.length === 0) continue;
    // From an alternator a cable serves the starter alone, and yet the battery drives it.
    const isDriven = cores.some((core) => {
      const one = figures.get(core);
      if (one === undefined || Number.isFinite(one.protection.amps)) return false;
      return feeds.length > 0 || !one.crankingOnly;
    });
    const through = nodes.filter((node) => trunk.has(node)).length > 1;
    if (isAlternatorLead(feeds, cores)) continue;
    if (batteries.length === 1 && isBehind(nodes)) continue;
    const between = batteries.length > 1 && (isSplit(ways) || metres(cores) > lengthLimit(cores));
    if (between || (isDriven && (feeds.length > 0 || !through)))
      stretches.push({ cores, batteries, feeds: feeds.filter((part) => !batteries.includes(part)) });
  }
  return stretches;
}

/** Nodes that batteries reach without a device, each from the battery with the fewest ways between; diodes let on only. */
function reachedFrom({ wiring, supplies }: Arrangement): Map<number, Reach> {
  const partOf = (node: number) => wiring.whole.part[node] ?? -1;
  const at = new Map<number, { way: Way; to: number }[]>();
  const add = (from: number, to: number, way: Way) => {
    const list = at.get(from);
    if (list === undefined) at.set(from, [{ way, to }]);
    else list.push({ way, to });
  };
  for (const way of wiring.ways) {
    if (way.device) continue;
    add(way.a, way.b, way);
    if (!way.oneWay) add(way.b, way.a, way);
  }
  const reached = new Map<number, Reach>();
  for (const supply of supplies) {
    const node = wiring.node(supply.plus);
    // A battery shorted by its own conductors drives everything: that is another fault.
    if (!isBattery(supply) || reached.has(node) || partOf(node) === partOf(wiring.node(supply.minus))) continue;
    reached.set(node, { way: undefined, before: undefined, depth: 0, battery: supply.part });
  }
  for (const [node, { depth, battery }] of reached)
    for (const { way, to } of at.get(node) ?? [])
      if (!reached.has(to)) reached.set(to, { way, before: node, depth: depth + 1, battery });
  return reached;
}

/** Draws that do not crank, and sources with a limit of their own: what stands there has no device before it. */
function bareEnds({ draws, sources, wiring }: Arrangement): Bare {
  const bare = new Map<number, Part[]>();
  const ends = [...draws.filter(({ cranking }) => !cranking), ...sources.filter(({ is }) => is !== 'battery')];
  for (const { part, plus } of ends) {
    const node = wiring.node(plus);
    const list = bare.get(node);
    if (list === undefined) bare.set(node, [part]);
    else if (!list.includes(part)) list.push(part);
  }
  return bare;
}

/** Batteries themselves, and the nodes on the way from them to devices and to batteries in series. */
function trunkOf(
  reached: ReadonlyMap<number, Reach>,
  ways: readonly Way[],
  joints: readonly number[],
): ReadonlySet<number> {
  const trunk = new Set<number>();
  for (const [node, { before }] of reached) if (before === undefined) trunk.add(node);
  for (const end of [...ways.flatMap(({ device, a, b }) => (device ? [a, b] : [])), ...joints])
    for (let node: number | undefined = end; node !== undefined && !trunk.has(node); ) {
      const before: number | undefined = reached.get(node)?.before;
      if (before !== undefined) trunk.add(node);
      node = before;
    }
  return trunk;
}

/** Ways off the trunk, those together that meet elsewhere than on it. */
function branches(
  reached: ReadonlyMap<number, Reach>,
  trunk: ReadonlySet<number>,
  ways: readonly Way[],
): Iterable<readonly Way[]> {
  const off = ways.filter(({ device, a, b, oneWay }, index) => {
    if (device || a === b || !reached.has(a) || (!reached.has(b) && !oneWay)) return false;
    const isTrunk = [a, b].some((node) => trunk.has(node) && reached.get(node)?.way?.index === ways[index]?.index);
    return !isTrunk;
  });
  const together = new UnionFind(off.length);
  const met = new Map<number, number>();
  off.forEach(({ a, b }, i) => {
    for (const node of [a, b]) {
      if (trunk.has(node)) continue;
      const other = met.get(node);
      if (other === undefined) met.set(node, i);
      else together.join(other, i);
    }
  });
  const groups = new Map<number, Way[]>();
  off.forEach((way, i) => {
    const root = together.find(i);
    const group = groups.get(root);
    if (group === undefined) groups.set(root, [way]);
    else group.push(way);
  });
  return groups.values();
}

function wayTo(node: number, reached: ReadonlyMap<number, Reach>): Way[] {
  const ways: Way[] = [];
  for (let at: number | undefined = node; at !== undefined; ) {
    const here: Reach | undefined = reached.get(at);
    if (here?.way !== undefined) ways.unshift(here.way);
    at = here?.before;
  }
  return ways;
}

/** A relay or a diode between two batteries keeps apart what is not one bank. */
function isSplit(ways: readonly Way[]): boolean {
  return ways.some(({ edges: [edge] }) => edge?.is === 'contact' && /^coil|^diode/u.test(edge.contact.operated));
}

function metres(cores: readonly Core[]): number {
  return cores.reduce((sum, { run }) => sum + (run.lengthMetres ?? 0), 0);
}
