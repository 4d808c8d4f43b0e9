/**
 * What a continuity tester tells at the terminals of a part, position by position: with its bars on and all cores off, and
 * what beeps besides while the cores are on.
 */
import type { Analysis } from '../../analysis.ts';
import type { ContactSpec } from '../../kinds/kind.ts';
import type { Part, Terminal } from '../../model/model.ts';
import type { Edge, Network } from '../../model/network.ts';
import { positionsOf } from '../../model/selector-positions.ts';
import { UnionFind } from '../../physics/union-find.ts';
import { coilOhms, listed } from '../figures.ts';
import { isFuseSaid } from '../way-fuse.ts';
import type { BeepState, CardBar } from './card.ts';
import { nameOf } from './face.ts';

interface Position {
  readonly when: string;
  readonly closed: (contact: ContactSpec) => boolean;
}

export interface Beeps {
  readonly states: readonly BeepState[];
  readonly notes: readonly string[];
}

export function beepsOf(analysis: Analysis, part: Part, bars: readonly CardBar[]): Beeps {
  return {
    states: statesOf(part, bars, analysis.answers.network).map(({ when, closed }) => {
      const alone = joinedAlone(part, bars, closed);
      return {
        when,
        groups: groups(part, alone),
        also: wiredBesides(analysis.answers.network, part, alone),
      };
    }),
    notes: notesOf(part),
  };
}

/** The positions it can be in, the one in which most is joined first. */
function statesOf(part: Part, bars: readonly CardBar[], network: Network): Position[] {
  const { contacts, kind } = part;
  if (contacts.length === 0) return bars.length === 0 ? [] : [{ when: '', closed: () => false }];
  const operated = new Set(contacts.map(({ operated: how }) => how));
  if (operated.has('coil'))
    return [
      { when: 'coil fed', closed: ({ operated: how }) => how !== 'coil-rest' },
      { when: 'coil at rest', closed: ({ operated: how }) => how !== 'coil' },
    ];
  if (operated.has('position')) return selectorPositions(part);
  if (operated.has('hand'))
    return [
      { when: 'ON', closed: () => true },
      { when: 'OFF', closed: ({ operated: how }) => how !== 'hand' },
    ];
  if (kind.word === 'diode') return [{ when: '', closed: () => false }];
  if (kind.word === 'fusebox')
    return [
      { when: 'fuses in', closed: ({ pole, to }) => isFuseSaid(part, pole) || isReached(part, to, network) },
      { when: 'fuses out', closed: () => false },
    ];
  return [{ when: '', closed: () => true }];
}

/** Whether a core is on a terminal: then there is to be a fuse, though none is said yet. */
function isReached({ name }: Part, terminal: string, network: Network): boolean {
  return (network.at.get(`${name}:${terminal}`) ?? []).some(({ is }) => is === 'core');
}

function selectorPositions(part: Part): Position[] {
  return positionsOf(part).map(({ name, joins }) => ({
    when: name.toUpperCase(),
    closed: (contact) => joins.includes(contact.from),
  }));
}

function joinedAlone(part: Part, bars: readonly CardBar[], closed: Position['closed']): UnionFind {
  const place = new Map(part.terminals.map((terminal, index) => [nameOf(terminal), index]));
  const sets = new UnionFind(part.terminals.length);
  const join = (a: string, b: string) => {
    const [one, other] = [place.get(a), place.get(b)];
    if (one !== undefined && other !== undefined) sets.join(one, other);
  };
  for (const { from, to } of bars) join(from, to);
  for (const contact of part.contacts)
    if (contact.operated !== 'diode' && closed(contact)) join(contact.from, contact.to);
  return sets;
}

function groups(part: Part, sets: UnionFind): string[][] {
  const found = new Map<number, string[]>();
  part.terminals.forEach((terminal, index) => {
    const root = sets.find(index);
    const group = found.get(root);
    if (group === undefined) found.set(root, [nameOf(terminal)]);
    else group.push(nameOf(terminal));
  });
  return [...found.values()].filter(({ length }) => length > 1);
}

/** Joins over the rest of the wiring, each told once, with what it goes over. Loads, sources and coils join nothing. */
function wiredBesides(network: Network, part: Part, alone: UnionFind): BeepState['also'] {
  const passes = (edge: Edge) => {
    if (edge.is !== 'contact') return true;
    if (edge.part === part) return false;
    // What lets pass one way only or stands open until something is fed is no conductor to a tester.
    return edge.contact.operated !== 'diode' && edge.contact.operated !== 'coil';
  };
  const own = new Map(part.terminals.map(({ id }, index) => [id, index]));
  const told = new UnionFind(part.terminals.length);
  for (const index of own.values()) told.join(index, alone.find(index));
  const also: BeepState['also'][number][] = [];
  part.terminals.forEach((start, index) => {
    for (const { terminal, over } of reach(network, start, passes)) {
      const other = own.get(terminal.id);
      if (other === undefined || told.find(other) === told.find(index)) continue;
      told.join(other, index);
      also.push({ from: nameOf(start), to: nameOf(terminal), over });
    }
  });
  return also;
}

const mostNamed = 4;

/** Testers beep below some 20 to 60 Ω (common practice, no source). */
const surelySilentOhms = 60;

/** Terminals that conductors lead to, the nearest first. */
function* reach(
  network: Network,
  start: Terminal,
  passes: (edge: Edge) => boolean,
): Generator<{ readonly terminal: Terminal; readonly over: string }> {
  const ways = new Map<string, readonly string[]>([[start.id, []]]);
  const queue = [start];
  // The queue is walked while it grows.
  for (const terminal of queue) {
    const way = ways.get(terminal.id) ?? [];
    if (terminal !== start && terminal.part === start.part) {
      yield { terminal, over: way.length > mostNamed ? 'the rest of the wiring' : listed(way) };
      continue;
    }
    for (const edge of network.at.get(terminal.id) ?? []) {
      const next = edge.from === terminal ? edge.to : edge.from;
      if (!passes(edge) || ways.has(next.id)) continue;
      ways.set(next.id, [...way, ...named(edge, terminal, start.part)]);
      queue.push(next);
    }
  }
}

function named(edge: Edge, from: Terminal, start: Part): string[] {
  if (edge.is === 'core') {
    const names = from.part === start ? [] : [from.part.name];
    return [...names, edge.core.run.name];
  }
  return edge.is === 'body' && edge.from.part !== edge.to.part ? ['the body'] : [];
}

function notesOf(part: Part): string[] {
  const { behaviour, word, family } = part.kind;
  if (behaviour.is === 'coil') {
    const [volts, amps] = [part.facts.number('coil', 'voltage'), part.facts.number('coil', 'current')];
    const known = volts !== undefined && amps !== undefined && amps > 0;
    const beep = known && volts / amps > surelySilentOhms ? 'no beep' : 'some testers beep at that';
    return [
      `${behaviour.from}–${behaviour.to} is the coil${known ? `: about ${coilOhms(volts / amps)}, ${beep}` : ', at which some testers beep'}.`,
    ];
  }
  if (word === 'diode') return ['On the diode range it conducts one way only, red lead on in.'];
  if (family === 'conversion') return ['A continuity tester tells nothing else about electronics.'];
  return [];
}
