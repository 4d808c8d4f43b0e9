/** Parts that stand the wrong way round against another that is believed, and panels that stand against their string. */
import type { Part, Terminal } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import type { Arrangement } from './arrangement.ts';
import { groupBy } from './grouping.ts';
import { pathBetween, throughOf } from './joining-paths.ts';
import { againstTheirStrings } from './panel-chains.ts';
import { type Port, portOf, type Source } from './ports.ts';
import { isBattery } from './supplies.ts';
import { isSure, type Joined, joinedAnyhow, joinedBy } from './surely-joined.ts';

export interface Reversed {
  readonly port: Port;
  readonly against: Port;
  /** Of a panel that stands against its string, the panels of that. */
  readonly string?: readonly Part[] | undefined;
}

/** What tells polarity, in the order in which it is believed. */
function believedPorts({ draws, sources, supplies }: Arrangement): Port[] {
  const batteries = [...supplies.filter(isBattery), ...sources.filter(({ is }) => is === 'battery')];
  const outputs = sources.filter(({ is }) => is === 'output' || is === 'load-output' || is === 'alternator');
  const inputs = draws.filter(({ is }) => is === 'pv');
  return [...batteries, ...outputs, ...inputs].map(portOf);
}

/** Panels that stand against their string: as surely joined, and however diodes and selectors stand. */
export function reversedInStrings(arrangement: Arrangement): Reversed[] {
  const { draws, layout, sources, wiring } = arrangement;
  const others = [...draws, ...sources.filter(({ is }) => is !== 'panel')];
  const believed = believedPorts(arrangement);
  const found: Reversed[] = [];
  for (const may of [isSure, () => true]) {
    const { net } = joinedBy(may, { layout, wiring: { terminals: wiring.terminals, inner: [] } });
    for (const one of againstTheirStrings(sources, others, believed, net))
      if (!found.some(({ port }) => port.plus === one.port.plus)) found.push(one);
  }
  return found;
}

/** By conductors alone, if any are: a part that joins its own sides and is the wrong way round shorts what all else is told by. */
export function firstReversed(arrangement: Arrangement, joined: Joined): Reversed[] {
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

export function throughReversed({ port, against }: Reversed, network: Network): string[] {
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
