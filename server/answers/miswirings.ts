/**
 * Wiring that is wrong whatever the sizes: a source shorted by its own conductors, a part with its plus on the negative
 * side, a part that nothing leads back from. Shorts and polarity are judged on what is surely joined: relays that change over,
 * selectors and diodes join nothing here. What is the wrong way round however these stand is reversed too. A way back may
 * lead through anything.
 */
import { keptWith } from '../model/lazily.ts';
import type { Core, Part, Terminal } from '../model/model.ts';
import type { Edge, Joint, Layout, Network } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { Miswirings } from './answers.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import { type Astray, astrayCores } from './astray.ts';
import { groupBy } from './grouping.ts';
import type { Installation } from './installation.ts';
import { type JoinedVoltages, joinedVoltages, type VoltageSource } from './joined-voltages.ts';
import { againstTheirStrings } from './panel-chains.ts';
import type { Port, Source } from './ports.ts';
import { isBattery } from './supplies.ts';
import type { Wiring } from './wiring.ts';

/** What follows from how parts are joined, whatever the cables are. */
interface Miswired {
  readonly joined: Joined;
  /** One source of everything that is joined together, whose plus and minus are. */
  readonly shorted: readonly Source[];
  readonly reversed: readonly Reversed[];
  readonly astray: readonly Astray[];
  readonly voltages: readonly JoinedVoltages[];
  readonly stranded: Miswirings['stranded'];
  /** Nets of a bank of which one battery hangs on one terminal only, so that the others have its share. */
  readonly halved: ReadonlySet<number>;
}

interface Reversed {
  readonly port: Port;
  readonly against: Port;
  readonly string?: readonly Part[] | undefined;
}

const miswiredIn = keptWith((layout: Layout): Miswired => {
  const arrangement = arrangementOf(layout);
  const joined = surelyJoined(arrangement);
  return {
    joined,
    shorted: shortedSources(arrangement, joined),
    reversed: [...firstReversed(arrangement, joined), ...reversedInStrings(arrangement)],
    astray: astrayCores(layout),
    voltages: joinedVoltages(arrangement),
    stranded: strandedDraws(arrangement, joined),
    halved: halvedBanks(arrangement, joined),
  };
});

export function miswirings(installation: Installation): Miswirings {
  const { network, layout } = installation;
  const { joined, reversed, stranded, halved, ...found } = miswiredIn(layout);
  const astray = found.astray.flatMap((one) => coreOf(one, network) ?? []);
  const upset = upsetByAstray(astray, installation, joined);
  // A core on the wrong pole of a battery shorts others, or puts it in series with them: that core alone is told.
  const isFree = ({ plus, part, below }: VoltageSource) =>
    ![plus, ...[part, ...below].flatMap(({ terminals }) => terminals)].some((one) => upset.has(joined.net(one)));
  const dead = new Set(astray.flatMap(({ far }) => [...far]));
  const shorts = found.shorted.flatMap((source) => {
    const short = shortOf(source, network);
    const isByAstray = astray.some(({ core }) => short?.through.includes(core.run.name));
    return short === undefined || isByAstray ? [] : [short];
  });
  for (const { source } of shorts) upset.add(joined.net(source.plus));
  const voltages = found.voltages.filter(({ highest, lowest }) => isFree(highest) && isFree(lowest));
  for (const { port, against, string } of reversed) {
    // A load the wrong way round spoils its own figures, a source those of everything beside it.
    const source = installation.sources.find(({ part }) => part === port.part);
    if (source === undefined) continue;
    upset.add(joined.net(against.plus));
    // In a string both its joints are taken for the other polarity.
    if (string !== undefined) upset.add(joined.net(port.plus)).add(joined.net(port.minus));
    // Of batteries in series also where two of them meet.
    for (const { plus, sources } of installation.supplies)
      if (plus === against.plus) for (const one of sources) upset.add(joined.net(one.plus));
    // The negative of panels may be that of everything.
    if (source.is === 'battery') upset.add(joined.net(against.minus));
  }
  for (const { highest, lowest } of voltages)
    for (const { part } of [highest, lowest]) for (const terminal of part.terminals) upset.add(joined.net(terminal));
  return {
    shorts,
    voltages,
    reversed: reversed.map((one) => ({ ...one, through: throughReversed(one, network) })),
    astray,
    stranded,
    isUpset: (terminal) => dead.has(terminal) || upset.has(joined.net(terminal)),
    anyHalved: halved.size > 0,
    isHalved: (terminal) => halved.has(joined.net(terminal)),
  };
}

/** Undefined where its colour says that it is its other end that is wrong. */
function coreOf({ joint, ...astray }: Astray, { edges }: Network): Miswirings['astray'][number] | undefined {
  const edge = edges[joint];
  if (edge?.is !== 'core') return undefined;
  const { core } = edge;
  return core.colour === (astray.sign === '+' ? 'red' : 'black') ? undefined : { core, ...astray };
}

/** Where something gives current beyond a core that is astray: its net, those of what feeds there, and of batteries in series with that. */
function upsetByAstray(
  astray: Miswirings['astray'],
  { sources, supplies }: Installation,
  { net }: Joined,
): Set<number> {
  const nets = new Set<number>();
  for (const { end, far } of astray) {
    const beyond = new Set([...far].map(({ part }) => part));
    if (!sources.some(({ part }) => beyond.has(part))) continue;
    nets.add(net(end));
    const isThere = ({ part, plus, minus }: Source) =>
      beyond.has(part) || [plus, minus].some((one) => net(one) === net(end));
    const inSeries = supplies.filter(({ sources: all }) => all.some(isThere)).flatMap(({ sources: all }) => all);
    for (const { plus, minus } of [...sources.filter(isThere), ...inSeries]) nets.add(net(plus)).add(net(minus));
  }
  return nets;
}

interface Joined {
  /** Number of what is joined to a terminal. */
  net(terminal: Terminal): number;
}

function surelyJoined(arrangement: Arrangement): Joined {
  return joinedBy(isSure, arrangement);
}

/** However its relays and selectors stand: what is apart here never meets. */
function joinedAnyhow(arrangement: Arrangement): Joined {
  return joinedBy(() => true, arrangement);
}

function joinedBy(
  may: (joint: Joint) => boolean,
  { layout, wiring }: Pick<Arrangement, 'layout'> & { readonly wiring: Pick<Wiring, 'terminals' | 'inner'> },
): Joined {
  const sets = new UnionFind(wiring.terminals.length);
  for (const joint of layout.joints) if (may(joint)) sets.join(joint.from.index, joint.to.index);
  for (const { from, to, is } of wiring.inner)
    if (is === 'common' || from.spec.polarity === '-') sets.join(from.index, to.index);
  return { net: (terminal) => sets.find(terminal.index) };
}

function isSure(joint: Joint): boolean {
  return joint.is !== 'contact' || isSureContact(joint.part, joint.contact.operated);
}

function isSureContact(part: Part, operated: string): boolean {
  return operated === 'fixed' || operated === 'hand' || (operated === 'coil' && part.contacts.length === 1);
}

function shortedSources({ sources }: Arrangement, { net }: Joined): Source[] {
  const told = new Set<number>();
  return sources.filter(({ plus, minus }) => {
    const at = net(plus);
    if (at !== net(minus) || told.has(at)) return false;
    told.add(at);
    return true;
  });
}

/** Undefined where a part alone joins it in itself. */
function shortOf(source: Source, network: Network): Miswirings['shorts'][number] | undefined {
  const path = pathBetween(source, network, isSure);
  const last = path.at(-1);
  if (last === undefined) return undefined;
  const closes = (edge: Edge) =>
    pathBetween(source, network, (one) => one !== edge && isSure(one)).length === 0 ? [edge] : [];
  const bridges = path.filter(({ is }) => is === 'bar' || is === 'core').flatMap(closes);
  const by =
    bridges.find(({ is }) => is === 'bar') ??
    bridges.find(({ from, to }) => isOpposite(from, to)) ??
    // The body is of the negative: what joins it to a plus comes first on the way from there.
    bridges.find(({ is, from, to }) => is === 'core' && [from, to].some(({ part }) => part.kind.word === 'chassis')) ??
    strayOf(path, bridges, network) ??
    bridges.at(-1) ??
    last;
  return { source: portOf(source), by, through: throughOf(path) };
}

function isOpposite({ spec: { polarity: one } }: Terminal, { spec: { polarity: other } }: Terminal): boolean {
  return one !== undefined && other !== undefined && one !== other;
}

/** Where red goes on as black, the one of the two that all else there is unlike; with nothing else there, the one that its terminal is unlike. */
function strayOf(path: readonly Edge[], bridges: readonly Edge[], { at }: Network): Edge | undefined {
  const colourOf = (edge: Edge) => (edge.is === 'core' ? edge.core.colour : undefined);
  for (const [i, red] of path.entries()) {
    const black = path[i + 1];
    if (black === undefined || colourOf(red) !== 'red' || colourOf(black) !== 'black') continue;
    const node = [red.from, red.to].find((end) => end === black.from || end === black.to);
    const others = (at.get(node?.id ?? '') ?? []).filter((edge) => edge !== red && edge !== black).map(colourOf);
    const count = (colour: string) => others.filter((one) => one === colour).length;
    const more = count('red') - count('black');
    // What protects and switches stands in the positive.
    const isPositive = node !== undefined && !node.part.kind.oneNode && node.spec.polarity !== '-';
    const stray = more > 0 || (more === 0 && isPositive) ? black : red;
    if ((more !== 0 || isPositive) && bridges.includes(stray)) return stray;
  }
  return undefined;
}

function portOf({ part, plus, minus }: Port): Port {
  return { part, plus, minus };
}

/** Edges from a port's plus to its minus, as few as there are; none where they are not joined. */
function pathBetween(
  { plus, minus }: Pick<Port, 'plus' | 'minus'>,
  network: Network,
  may: (edge: Edge) => boolean,
): Edge[] {
  const by = new Map<Terminal, Edge | undefined>([[plus, undefined]]);
  for (const [terminal] of by) {
    if (terminal === minus) break;
    for (const edge of network.at.get(terminal.id) ?? []) {
      const next = edge.from === terminal ? edge.to : edge.from;
      if (may(edge) && !by.has(next)) by.set(next, edge);
    }
  }
  const path: Edge[] = [];
  for (let at = minus, edge = by.get(at); edge !== undefined; edge = by.get(at)) {
    path.unshift(edge);
    at = edge.from === at ? edge.to : edge.from;
  }
  return path;
}

/** Names of runs and parts on the way, in order. */
function throughOf(path: readonly Edge[]): string[] {
  return [
    ...new Set(
      path.map((edge) => {
        if (edge.is === 'core') return edge.core.run.name;
        return edge.is === 'contact' ? edge.part.name : edge.from.part.name;
      }),
    ),
  ];
}

/** What tells polarity, in the order in which it is believed. */
function believedPorts({ draws, sources, supplies }: Arrangement): Port[] {
  const batteries = [...supplies.filter(isBattery), ...sources.filter(({ is }) => is === 'battery')];
  const outputs = sources.filter(({ is }) => is === 'output' || is === 'load-output' || is === 'alternator');
  const inputs = draws.filter(({ is }) => is === 'pv');
  return [...batteries, ...outputs, ...inputs].map(portOf);
}

/** Panels that stand against their string: as surely joined, and however diodes and selectors stand. */
function reversedInStrings(arrangement: Arrangement): Reversed[] {
  const { draws, layout, sources, wiring } = arrangement;
  const others = [...draws, ...sources.filter(({ is }) => is !== 'panel')];
  const found: Reversed[] = [];
  for (const may of [isSure, () => true]) {
    const { net } = joinedBy(may, { layout, wiring: { terminals: wiring.terminals, inner: [] } });
    for (const one of againstTheirStrings(sources, others, believedPorts(arrangement), net))
      if (!found.some(({ port }) => port.plus === one.port.plus)) found.push(one);
  }
  return found;
}

/** By conductors alone, if any are: a part that joins its own sides and is the wrong way round shorts what all else is told by. */
function firstReversed(arrangement: Arrangement, joined: Joined): Reversed[] {
  const { layout, wiring } = arrangement;
  const conductors = { layout, wiring: { terminals: wiring.terminals, inner: [] } };
  const first = reversedPorts(arrangement, [joinedBy(isSure, conductors), joinedBy(() => true, conductors)]);
  return first.length > 0 || wiring.inner.length === 0
    ? first
    : reversedPorts(arrangement, [joined, joinedAnyhow(arrangement)]);
}

/** Ports with their plus on the minus of another and their minus on its plus; batteries are believed before others. */
function reversedPorts(arrangement: Arrangement, ways: readonly Joined[]): Reversed[] {
  const { draws, sources } = arrangement;
  const outputs = sources.filter(({ is }) => is === 'output' || is === 'load-output' || is === 'alternator');
  const believed = believedPorts(arrangement);
  const ports: Port[] = [...sources, ...draws.filter(({ is }) => is !== 'coil')];
  const pair = (one: number, other: number) => `${Math.min(one, other)} ${Math.max(one, other)}`;
  const believedOn = ways.map(({ net }) => groupBy(believed, ({ plus, minus }) => pair(net(plus), net(minus))));
  /** What it is the wrong way round against; `right` where it stands as the one that is believed first of all beside it. */
  const beside = (port: Port): Port | 'right' | undefined => {
    for (const [i, { net }] of ways.entries()) {
      const [plus, minus] = [net(port.plus), net(port.minus)];
      if (plus === minus) continue;
      const first = believedOn[i]?.get(pair(plus, minus))?.find(({ part }) => part !== port.part);
      if (first !== undefined) return net(first.plus) === plus ? 'right' : first;
    }
    return undefined;
  };
  const found: Reversed[] = [];
  const right: Port[] = [];
  const told = new Set<Terminal>();
  for (const port of ports) {
    if (told.has(port.plus)) continue;
    const against = beside(port);
    if (against === 'right') right.push(port);
    // Of two that are against each other the one that is believed less, or else the second, is told.
    if (against === undefined || against === 'right') continue;
    if (found.some(({ port: before }) => before.part === against.part)) continue;
    if (rank(port, believed) < rank(against, believed)) continue;
    told.add(port.plus);
    found.push({ port: portOf(port), against });
  }
  return outputs.reduce((all, output) => asOutput(output, all, right, ways), found);
}

/** Where all of several loads are the wrong way round for an output and none is right, it is the output. */
function asOutput(
  output: Source,
  found: readonly Reversed[],
  right: readonly Port[],
  ways: readonly Joined[],
): Reversed[] {
  const against = found.filter(({ against: { plus } }) => plus === output.plus);
  const [first] = against;
  const isRight = ({ part, plus }: Port) =>
    part !== output.part && ways.some(({ net }) => net(plus) === net(output.plus));
  if (first === undefined || against.length < 2 || right.some(isRight)) return [...found];
  const own = { port: portOf(output), against: first.port };
  return found.flatMap((one) => (one === first ? [own] : against.includes(one) ? [] : [one]));
}

function throughReversed({ port, against }: Reversed, network: Network): string[] {
  const ways = [
    { plus: port.plus, minus: against.minus },
    { plus: port.minus, minus: against.plus },
  ];
  return throughOf(
    ways.flatMap((ends) => {
      const sure = pathBetween(ends, network, isSure);
      return sure.length > 0 ? sure : pathBetween(ends, network, () => true);
    }),
  );
}

function rank({ plus }: Port, believed: readonly Port[]): number {
  const place = believed.findIndex((other) => other.plus === plus);
  return place === -1 ? believed.length : place;
}

/** Draws whose plus a supply reaches while their minus leads back to none that does, although something ends there. */
function strandedDraws({ draws, layout, supplies, wiring }: Arrangement, { net }: Joined): Miswirings['stranded'] {
  const sets = new UnionFind(wiring.terminals.length);
  const ended = new Set<Terminal>();
  for (const { from, to } of layout.joints) {
    sets.join(from.index, to.index);
    ended.add(from).add(to);
  }
  for (const { from, to } of wiring.inner) sets.join(from.index, to.index);
  const oneNodes = ['busbar', 'splice', 'chassis'].flatMap((word) =>
    wiring.terminals.filter(({ part: { kind } }) => kind.oneNode && kind.word === word),
  );
  const anyhow = (terminal: Terminal) => sets.find(terminal.index);
  return draws.flatMap((draw) => {
    if (draw.is === 'pv' || draw.is === 'pass' || !ended.has(draw.minus)) return [];
    const feeding = supplies.filter(({ part, plus }) => part !== draw.part && anyhow(plus) === anyhow(draw.plus));
    const supply = feeding.find(isBattery) ?? feeding[0];
    if (supply === undefined || anyhow(draw.minus) === anyhow(draw.plus)) return [];
    // Of batteries in series it may lead back to the joint.
    const back = anyhow(draw.minus);
    if (feeding.some(({ sources }) => sources.some(({ minus }) => anyhow(minus) === back))) return [];
    const common = (from: Terminal) => oneNodes.find((terminal) => net(terminal) === net(from));
    // What another supply has for its own negative is not to be joined as a whole.
    const isElsewhere = supplies.some(({ minus }) => net(minus) === net(draw.minus));
    const end = isElsewhere ? undefined : common(draw.minus);
    return [{ port: portOf(draw), supply: portOf(supply), end, home: common(supply.minus) }];
  });
}

/** Nets of the batteries beside one alike of which nothing is joined to the other terminal. */
function halvedBanks({ sources, layout }: Arrangement, { net }: Joined): ReadonlySet<number> {
  const batteries = sources.filter(({ is }) => is === 'battery');
  const ended = new Set(layout.joints.flatMap(({ from, to }) => [from, to]));
  const isAlike = ({ facts }: Part, other: Part) =>
    facts.word('chemistry') === other.facts.word('chemistry') &&
    facts.number('voltage') === other.facts.number('voltage') &&
    facts.number('capacity') === other.facts.number('capacity');
  const halved = new Set<number>();
  for (const { part, plus, minus } of batteries) {
    if (ended.has(plus) === ended.has(minus)) continue;
    const end = ended.has(plus) ? 'plus' : 'minus';
    const own = net(end === 'plus' ? plus : minus);
    for (const other of batteries)
      if (other.part !== part && net(other[end]) === own && isAlike(part, other.part))
        halved.add(net(other.plus)).add(net(other.minus));
  }
  return halved;
}

/** Cores that end on a terminal, with the place where that end is written. */
export function endsAt(terminal: Terminal, network: Network): { core: Core; place: NonNullable<Core['fromPlace']> }[] {
  return (network.at.get(terminal.id) ?? []).flatMap((edge) => {
    if (edge.is !== 'core') return [];
    const place = edge.core.from === terminal ? edge.core.fromPlace : edge.core.toPlace;
    return place === undefined ? [] : [{ core: edge.core, place }];
  });
}
