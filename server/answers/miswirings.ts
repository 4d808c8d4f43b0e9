/**
 * Wiring that is wrong whatever the sizes: a source shorted by its own conductors, a part with its plus on the negative
 * side, a part that nothing leads back from. Shorts and polarity are judged on what is surely joined: relays that change over,
 * selectors and diodes join nothing here. What is the wrong way round however these stand is reversed too. A way back may
 * lead through anything.
 */
import { keptWith } from '../model/lazily.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Edge, Layout, Network } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { Miswirings } from './answers.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import { type Astray, astrayCores } from './astray.ts';
import type { Installation } from './installation.ts';
import { type JoinedVoltages, joinedVoltages, type VoltageSource } from './joined-voltages.ts';
import { pathBetween, throughOf } from './joining-paths.ts';
import { type Port, portOf, type Source } from './ports.ts';
import { firstReversed, type Reversed, reversedInStrings, throughReversed } from './reversed-ports.ts';
import { isBattery } from './supplies.ts';
import { isSure, type Joined, surelyJoined } from './surely-joined.ts';

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

const miswiredIn = keptWith((layout: Layout): Miswired => {
  const arrangement = arrangementOf(layout);
  const joined = surelyJoined(arrangement);
  return {
    joined,
    shorted: shortedSources(arrangement, joined),
    reversed: [...firstReversed(arrangement, joined), ...reversedInStrings(arrangement)],
    astray: astrayCores(layout),
    voltages: joinedVoltages(arrangement),
    stranded: strandedPorts(arrangement, joined),
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

/**
 * Draws whose plus a supply reaches while their minus leads back to none that does, although something ends there or on what it is
 * joined to inside its part; and chargers whose plus leads to a battery to which their minus does not.
 */
function strandedPorts(
  { draws, layout, sources, supplies, wiring }: Arrangement,
  { net }: Joined,
): Miswirings['stranded'] {
  const sets = new UnionFind(wiring.terminals.length);
  const ended = new Set<Terminal>();
  for (const { from, to } of layout.joints) {
    sets.join(from.index, to.index);
    ended.add(from).add(to);
  }
  for (const { from, to } of wiring.inner) sets.join(from.index, to.index);
  const oneNodes = [
    ...['busbar', 'splice', 'chassis', 'block'].flatMap((word) =>
      wiring.terminals.filter(({ part: { kind } }) => kind.oneNode && kind.word === word),
    ),
    ...wiring.terminals.filter(({ part: { kind }, spec }) => kind.word === 'fusebox' && spec.polarity === '-'),
  ];
  const anyhow = (terminal: Terminal) => sets.find(terminal.index);
  const isEnded = (terminal: Terminal) =>
    ended.has(terminal) || wiring.innerAt(terminal).some(({ from, to }) => ended.has(from) || ended.has(to));
  const stranded = (port: Port, feeds: boolean) => {
    const { part, plus, minus } = port;
    if (!isEnded(minus) || anyhow(minus) === anyhow(plus)) return [];
    const others = supplies.filter((supply) => supply.part !== part && anyhow(supply.plus) === anyhow(plus));
    // What relays and selectors join is fed from there only at times: first comes what feeds it always.
    const always = feeds ? [] : others.filter((supply) => net(supply.plus) === net(plus));
    const feeding = always.length > 0 ? always : others;
    const supply = feeding.find(isBattery) ?? feeding[0];
    if (supply === undefined || (feeds && !isBattery(supply))) return [];
    // Of batteries in series it may lead back to the joint.
    const back = anyhow(minus);
    if (feeding.some((one) => one.sources.some((source) => anyhow(source.minus) === back))) return [];
    // Where nothing ends on the minus of what feeds it, that is told of.
    if (feeding.every((one) => !ended.has(one.minus))) return [];
    const common = (from: Terminal) => oneNodes.find((terminal) => net(terminal) === net(from));
    // What a supply apart from these has for its own negative is not to be joined as a whole.
    const isElsewhere = supplies.some(
      (one) => net(one.minus) === net(minus) && (one.part !== part || !feeds) && !others.includes(one),
    );
    const end = isElsewhere ? undefined : common(minus);
    return [{ port: portOf(port), feeds, supply: portOf(supply), end, home: common(supply.minus) }];
  };
  return [
    ...draws.flatMap((draw) => (draw.is === 'pv' || draw.is === 'pass' ? [] : stranded(draw, false))),
    ...sources.flatMap((source) => (isCharging(source) ? stranded(source, true) : [])),
  ];
}

/** Gives its current to a battery beside it; a converter begins a supply of its own. */
function isCharging({ is, part }: Source): boolean {
  return is === 'alternator' || (is === 'output' && part.kind.word !== 'converter');
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
