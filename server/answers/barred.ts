/**
 * What keeps a supply from something that it is to feed: the fewest open contacts, diodes that point the other way and sources that
 * are off between the two. It asks how contacts stand and not what flows, so it tells why nothing does.
 */
import type { Part, Terminal } from '../model/model.ts';
import type { ContactEdge, Edge, Network } from '../model/network.ts';
import { arrangementOf } from './arrangement.ts';
import { type Paths, pathsFrom } from './paths.ts';
import type { Draw, Port, Source } from './ports.ts';
import type { Supply } from './supplies.ts';

/** One thing in the way: a contact, or a diode against the current; without an edge a source that is off. */
export interface Barrier {
  readonly part: Part;
  readonly edge: ContactEdge | undefined;
}

export interface Standing {
  isClosed(edge: ContactEdge): boolean;
  gives(source: Source): boolean;
}

/** A diode is turned round less readily than any number of switches is closed. */
const againstDiode = 1000;

/**
 * None where it is fed as all stands; undefined where nothing would feed it whatever is closed. A converter feeds what is behind
 * it while something feeds the converter.
 */
export function barriersBefore(
  port: Port,
  network: Network,
  standing: Standing,
  seen: ReadonlySet<Part> = new Set(),
): readonly Barrier[] | undefined {
  const { supplies, draws, wiring } = arrangementOf(network.layout);
  const passed = new Set([...seen, port.part]);
  const from = (start: Terminal, against: (edge: ContactEdge, at: Terminal) => boolean) =>
    pathsFrom(start, network, wiring.innerAt, (edge, at) => costOf(edge, standing, (diode) => against(diode, at)));
  // To what feeds it one goes against the current, and home with it.
  const out = from(port.plus, ({ from: inlet }, at) => at === inlet);
  const home = from(port.minus, ({ from: inlet }, at) => at !== inlet);
  let least: { readonly cost: number; readonly barriers: readonly Barrier[] } | undefined;
  for (const supply of supplies) {
    const [plus, minus] = [out.cost(supply.plus), home.cost(supply.minus)];
    if (passed.has(supply.part) || plus === undefined || minus === undefined) continue;
    if (least !== undefined && plus + minus >= least.cost) continue;
    const own = ofSupply(supply, draws, network, standing, passed);
    if (own === undefined) continue;
    const cost = plus + minus + own.length;
    if (least !== undefined && cost >= least.cost) continue;
    const ways = [...onWay(out, supply.plus), ...onWay(home, supply.minus)];
    least = { cost, barriers: [...own, ...ways] };
  }
  return least?.barriers;
}

function costOf(edge: Edge, standing: Standing, isAgainst: (diode: ContactEdge) => boolean): number {
  if (edge.is !== 'contact') return 0;
  if (edge.contact.operated === 'diode') return isAgainst(edge) ? againstDiode : 0;
  return standing.isClosed(edge) ? 0 : 1;
}

/** Of a selector that bars the way all contacts on it, since it may not join them all at once. */
function onWay(paths: Paths, to: Terminal): Barrier[] {
  let before = 0;
  const onIt: (Barrier & { readonly isBarred: boolean })[] = [];
  for (const { edge, to: next } of paths.steps(to)) {
    const cost = paths.cost(next) ?? before;
    if (edge?.is === 'contact') onIt.push({ part: edge.part, edge, isBarred: cost > before });
    before = cost;
  }
  const turnedAway = new Set(onIt.flatMap((one) => (one.isBarred && isPosition(one) ? [one.part] : [])));
  return onIt
    .filter((one) => one.isBarred || (isPosition(one) && turnedAway.has(one.part)))
    .map(({ part, edge }) => ({ part, edge }));
}

function isPosition({ edge }: Barrier): boolean {
  return edge?.contact.operated === 'position';
}

/** What keeps a supply itself from giving; undefined for one that feeds no load by itself, as a charger without its battery. */
function ofSupply(
  { sources, part }: Supply,
  draws: readonly Draw[],
  network: Network,
  standing: Standing,
  seen: ReadonlySet<Part>,
): readonly Barrier[] | undefined {
  const off = sources.flatMap((source) => (standing.gives(source) ? [] : [{ part: source.part, edge: undefined }]));
  if (sources.every(({ is }) => is === 'battery' || is === 'alternator')) return off;
  if (part.kind.word !== 'converter') return undefined;
  const [input] = draws
    .filter((draw) => draw.is === 'input' && draw.part === part)
    .flatMap((draw) => {
      const barriers = barriersBefore(draw, network, standing, seen);
      return barriers === undefined ? [] : [barriers];
    })
    .sort((one, other) => one.length - other.length);
  return input === undefined ? undefined : [...input, ...off];
}
