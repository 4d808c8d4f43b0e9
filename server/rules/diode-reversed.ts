/** A diode that points against the way from what gives to what takes, or across a battery. */
import { arrangementOf } from '../answers/arrangement.ts';
import { endsAt } from '../answers/joining-paths.ts';
import type { Draw, Source } from '../answers/ports.ts';
import { keptWith } from '../model/lazily.ts';
import type { Model, Part, Terminal } from '../model/model.ts';
import type { Joint, Layout, Network } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import { isAccepted } from './accepted.ts';
import { lampSpec } from './language.ts';
import type { Fix, Reported, Rule } from './rule.ts';
import { names, someNames } from './words.ts';

const diode = 'diode D1 10 A, loses 0.2 V';

/** A lamp behind a diode, whose ends are these. */
const behind = (first: string, second: string, ...more: string[]) =>
  lampSpec(
    { out: `run W2 1.5 mm² red, 1.2 m, F1:out to D1:${first}` },
    ...more,
    `run W4 1.5 mm² red, 0.5 m, D1:${second} to LAMP:+`,
  );

/** Two batteries that feed a lamp, each through a diode of its own. */
const backedUp = (first: string, second: string, marked = '') =>
  behind(
    'in',
    'out',
    diode,
    'battery B2 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'fuse F2 5 A, blade, 32 V',
    `diode D2 10 A, loses 0.2 V${marked}`,
    'run W5 1.5 mm² red, 0.1 m, B2:+ to F2:in',
    `run W6 1.5 mm² red, 0.5 m, F2:out to D2:${first}`,
    `run W7 1.5 mm² red, 0.5 m, D2:${second} to LAMP:+`,
    'run W8 1.5 mm² black, 0.5 m, B2:- to B1:-',
  );

export const rule: Rule = {
  slug: 'diode-reversed',
  severity: 'error',
  group: 'network',
  restsOnAllNames: true,
  reads: ['run.ends'],
  page: {
    title: 'A diode the wrong way round',
    why: 'What stands behind it gets nothing, and whoever looks for the fault finds sound fuses and cables. Across a battery, as beside a coil, it is a short-circuit.',
    limit:
      'A diode lets current pass from `in` to `out` only: from what gives (a battery, an alternator, a charger, panels) to what takes, and on the way back from the minus of what takes to the minus of what gives (common practice, no source). All contacts are taken as closed; where both sides of a diode give, nothing is told.',
    mend: 'Isolate both its sides and prove dead (panels are live in daylight, and a battery cannot be switched off: take its fuse out), then turn it round: swap what is joined to its `in` and its `out`. On the part itself the ring or bar marks `out`.',
    see: ['polarity-reversed', 'breaker-reversed', 'dead-in-case'],
    wrong: [
      behind('out', 'in', `${diode} # finds: diode-reversed "D1"`),
      backedUp('out', 'in', ' # finds: diode-reversed "D2"'),
    ],
    right: [
      behind('in', 'out', diode),
      backedUp('in', 'out'),
      // Across a coil it takes up what that gives as it lets go.
      lampSpec(
        {},
        'relay K1 coil 12 V 150 mA, contact 20 A',
        diode,
        'load FAN 6 W',
        'switch S1 1 pole, 10 A dc, 24 V',
        'run W4 1.5 mm² red, 0.5 m, F1:out to S1:1',
        'run W5 1.5 mm² red, 0.5 m, S1:2 to K1:86',
        'run W6 1.5 mm² black, 0.5 m, K1:85 to B1:-',
        'run W7 1.5 mm² red, 0.1 m, D1:out to K1:86',
        'run W8 1.5 mm² black, 0.1 m, D1:in to K1:85',
        'run W9 1.5 mm² red, 0.5 m, F1:out to K1:30',
        'run W10 1.5 mm² red, 0.5 m, K1:87 to FAN:+',
        'run W11 1.5 mm² black, 0.5 m, FAN:- to B1:-',
      ),
    ],
  },
  *check({ answers: { network } }) {
    for (const one of reversedDiodes(network.layout)) yield told(one, network);
  },
};

/** A diode the wrong way round: what it keeps from what, or, with nothing that takes, what it shorts. */
export interface ReversedDiode {
  readonly part: Part;
  readonly inlet: Terminal;
  readonly outlet: Terminal;
  readonly givers: readonly Part[];
  readonly takers: readonly Part[];
  /** On the way back, between two minuses. */
  readonly isReturn: boolean;
  /** Something else feeds what is behind it. */
  readonly isFed: boolean;
}

/** Found from the wiring alone; of a diode with two outputs the first that is. */
export const reversedDiodes = keptWith((layout: Layout): readonly ReversedDiode[] => {
  const diodes = layout.joints.filter(isDiode);
  if (diodes.length === 0) return [];
  const sides = new Sides(layout, diodes);
  const found = new Map<Part, ReversedDiode>();
  for (const one of diodes) {
    const reversed = found.has(one.part) ? undefined : sides.judge(one);
    if (reversed !== undefined) found.set(one.part, reversed);
  }
  return [...found.values()];
});

/** Whether any is found here and not accepted. */
export function anyReversed(model: Model, { layout }: Network): boolean {
  return reversedDiodes(layout).some(({ part }) => !isAccepted(model, rule.slug, part.name));
}

/** Whether a diode that is found here, and not accepted, keeps everything from a part. */
export function isBehindReversedDiode(part: Part, model: Model, { layout }: Network): boolean {
  return reversedDiodes(layout).some(
    (one) => !one.isFed && one.takers.includes(part) && !isAccepted(model, rule.slug, one.part.name),
  );
}

type DiodeJoint = Extract<Joint, { readonly is: 'contact' }>;

function isDiode(joint: Joint): joint is DiodeJoint {
  return joint.is === 'contact' && joint.contact.operated === 'diode';
}

type Sign = '+' | '-';

/** What is joined with no diode between, every contact being closed. */
interface Side {
  readonly net: number;
  readonly gives: Readonly<Record<Sign, Source[]>>;
  readonly takes: Readonly<Record<Sign, Draw[]>>;
}

class Sides {
  private readonly sides = new Map<number, Side>();
  private readonly nets: UnionFind;

  constructor(
    layout: Layout,
    private readonly diodes: readonly DiodeJoint[],
  ) {
    const { wiring, sources, draws } = arrangementOf(layout);
    this.nets = new UnionFind(layout.terminals.length);
    for (const joint of layout.joints) if (!isDiode(joint)) this.nets.join(joint.from.index, joint.to.index);
    for (const { from, to } of wiring.inner) this.nets.join(from.index, to.index);
    for (const source of sources) {
      this.at(source.plus).gives['+'].push(source);
      this.at(source.minus).gives['-'].push(source);
    }
    for (const draw of draws) {
      // What a controller hands on to its load output is no load of its own.
      if (draw.is === 'pass') continue;
      this.at(draw.plus).takes['+'].push(draw);
      this.at(draw.minus).takes['-'].push(draw);
    }
  }

  judge(one: DiodeJoint): ReversedDiode | undefined {
    const [inlet, outlet] = [this.at(one.from), this.at(one.to)];
    if (inlet === outlet) return undefined;
    const ends = { part: one.part, inlet: one.from, outlet: one.to };
    const shorted = inlet.gives['+'].filter((source) => source.is === 'battery' && outlet.gives['-'].includes(source));
    if (shorted.length > 0) return { ...ends, givers: partsOf(shorted), takers: [], isReturn: false, isFed: false };
    for (const sign of ['+', '-'] as const) {
      // Home to what gives, current goes the other way than out of it.
      const [taking, giving] = sign === '+' ? [inlet, outlet] : [outlet, inlet];
      const found = this.kept(one, taking, giving, sign);
      if (found !== undefined) return { ...ends, ...found, isReturn: sign === '-' };
    }
    return undefined;
  }

  /** What a diode keeps from what, where one of its sides only takes, or the other only gives. */
  private kept(
    one: DiodeJoint,
    taking: Side,
    giving: Side,
    sign: Sign,
  ): Pick<ReversedDiode, 'givers' | 'takers' | 'isFed'> | undefined {
    const givers = this.giversBehind(one, giving, sign);
    if (givers.length === 0) return undefined;
    const batteries = taking.gives[sign].filter(({ is }) => is === 'battery');
    const takers = [...batteries, ...taking.takes[sign]];
    const onlyGives =
      giving.takes[sign].length === 0 &&
      giving.gives[sign].length > 0 &&
      giving.gives[sign].every(({ is }) => is !== 'battery');
    if (onlyGives && takers.length > 0)
      return { givers: partsOf(givers), takers: partsOf(batteries.length > 0 ? batteries : takers), isFed: false };
    if (givesAnything(taking)) return undefined;
    const feeders = this.feedersOf(one, taking, sign);
    if (feeders.length === 0) {
      const behind = takers.length > 0 ? takers : this.takersBehind(one, taking, sign);
      return behind.length === 0 ? undefined : { givers: partsOf(givers), takers: partsOf(behind), isFed: false };
    }
    // Through two diodes a battery is charged by what charges, and hardly by another battery while it has nothing to feed.
    const isCharged = [...feeders, giving].some((side) => side.gives[sign].some(({ is }) => is !== 'battery'));
    if (isCharged || takers.length === 0 || giving.takes[sign].length > 0) return undefined;
    return { givers: partsOf(givers), takers: partsOf(takers), isFed: true };
  }

  /** What gives on a side, or on from there behind further diodes. */
  private giversBehind(one: DiodeJoint, side: Side, sign: Sign): readonly Source[] {
    const reached = new Set([side]);
    for (const here of reached) {
      if (here.gives[sign].length > 0) return here.gives[sign];
      for (const { part, from, to } of this.diodes) {
        if (part === one.part) continue;
        const [a, b] = [this.at(from), this.at(to)];
        if (a === here) reached.add(b);
        else if (b === here) reached.add(a);
      }
    }
    return [];
  }

  /** Sides from which another diode feeds this one. */
  private feedersOf(one: DiodeJoint, side: Side, sign: Sign): readonly Side[] {
    return this.diodes.flatMap(({ part, from, to }) => {
      const [before, after] = sign === '+' ? [from, to] : [to, from];
      return part !== one.part && this.at(after) === side ? [this.at(before)] : [];
    });
  }

  /** What takes behind further diodes that point the right way. */
  private takersBehind(one: DiodeJoint, side: Side, sign: Sign): readonly Draw[] {
    const reached = new Set([side]);
    for (const here of reached)
      for (const { part, from, to } of this.diodes) {
        const [before, after] = sign === '+' ? [from, to] : [to, from];
        if (part !== one.part && this.at(before) === here) reached.add(this.at(after));
      }
    const all = [...reached];
    return all.some(givesAnything) ? [] : all.flatMap(({ takes }) => takes[sign]);
  }

  private at({ index }: Terminal): Side {
    const net = this.nets.find(index);
    let side = this.sides.get(net);
    if (side === undefined) {
      side = { net, gives: { '+': [], '-': [] }, takes: { '+': [], '-': [] } };
      this.sides.set(net, side);
    }
    return side;
  }
}

function givesAnything({ gives }: Side): boolean {
  return gives['+'].length + gives['-'].length > 0;
}

function partsOf(ports: readonly { readonly part: Part }[]): Part[] {
  return [...new Set(ports.map(({ part }) => part))];
}

/** More would make a long sentence longer. */
const mostNamed = 3;

function told({ part, inlet, outlet, givers, takers, isReturn }: ReversedDiode, network: Network): Reported {
  const [from, to] = [someNames(givers, mostNamed), someNames(takers, mostNamed)];
  const nothing = `${to} ${takers.length > 1 ? 'get' : 'gets'} nothing`;
  const so = isReturn ? `nothing comes back from ${to} to ${from}, and ${nothing}` : `${nothing} from ${from}`;
  const passes = `${part.name} lets current pass from ${inlet.id} to ${outlet.id} only`;
  return {
    message:
      takers.length === 0
        ? `${passes}, and so straight from the plus of ${from} to its minus: a short-circuit. Turn it round, swapping what is on the two.`
        : `${passes}, so ${so}: turn it round, swapping what is on the two.`,
    place: part.namePlace,
    subject: part.name,
    figures: { givers: names(givers), takers: names(takers) },
    related: [
      ...givers.map((one) => ({
        message: `${one.name} is on ${isReturn ? inlet.id : outlet.id}`,
        place: one.namePlace,
      })),
      ...takers.map((one) => ({
        message: `${one.name} is behind ${isReturn ? outlet.id : inlet.id}`,
        place: one.namePlace,
      })),
    ],
    fixes: [turnedRound(inlet, outlet, network)],
  };
}

function turnedRound(inlet: Terminal, outlet: Terminal, network: Network): Fix {
  const to = (end: Terminal, other: Terminal) =>
    endsAt(end, network).map(({ place }) => ({ place, newText: other.id }));
  return {
    title: `Swap ${inlet.id} with ${outlet.id}`,
    safe: false,
    edits: [...to(inlet, outlet), ...to(outlet, inlet)],
  };
}
