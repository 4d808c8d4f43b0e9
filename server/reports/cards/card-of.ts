/** The card of a part, from what is said of it and from the network. */
import type { Analysis } from '../../analysis.ts';
import type { ContactSpec } from '../../kinds/kind.ts';
import type { Part } from '../../model/model.ts';
import { amps } from '../figures.ts';
import { isFuseSaid } from '../way-fuse.ts';
import { beepsOf } from './beeps.ts';
import type { Card, CardBar, CardTerminal, CardWay } from './card.ts';
import { coresOn } from './cores-on.ts';
import { faceOf, nameOf } from './face.ts';
import { whenOpen } from './when-open.ts';
import { spokenOf } from './words.ts';

/** Kinds that a card is drawn of whatever they have on them. */
const always: ReadonlySet<string> = new Set([
  ...['isolator', 'switch', 'selector', 'breaker', 'relay', 'fusebox', 'controller'],
]);

const fewest = 3;

/** Whether a card helps: of what opens, protects or regulates, and of anything else with three terminals or more to choose from. */
export function hasCard(part: Part): boolean {
  if (part.terminals.length === 0) return false;
  return always.has(part.kind.word) || part.terminals.length >= fewest;
}

/** Cards in the order in which the parts are written. */
export function cardsOf(analysis: Analysis, only?: ReadonlySet<string>): Card[] {
  return [...analysis.model.parts.values()]
    .filter((part) => hasCard(part) && (only === undefined || only.has(part.name)))
    .map((part) => cardOf(analysis, part));
}

export function cardOf(analysis: Analysis, part: Part): Card {
  const face = faceOf(part);
  const bars = barsOf(analysis, part);
  const terminals = part.terminals.map((terminal): CardTerminal => {
    const name = nameOf(terminal);
    const barsTo = bars
      .filter(({ is }) => is === 'link')
      .flatMap(({ from, to }) => (from === name ? [to] : to === name ? [from] : []));
    const cores = coresOn(analysis, terminal);
    return {
      id: terminal.id,
      name,
      meaning: terminal.spec.meaning,
      cores,
      barsTo,
      empty: cores.length === 0 && barsTo.length === 0,
    };
  });
  const { states, notes: beepNotes } = beepsOf(analysis, part, bars);
  const card = {
    part: part.name,
    title: part.title,
    kindWord: part.kind.word,
    symbol: part.kind.symbol,
    ratings: ratingsOf(part),
    where: whereOf(part),
    terminals,
    spots: face.spots,
    faceStated: face.stated,
    ways: waysOf(part, terminals),
    bars,
    coil:
      part.kind.behaviour.is === 'coil' ? { from: part.kind.behaviour.from, to: part.kind.behaviour.to } : undefined,
    beeps: states,
    beepNotes,
    notes: face.notes,
    caution: cautionOf(analysis, part),
  };
  return { ...card, spoken: spokenOf(card) };
}

function barsOf({ model }: Analysis, part: Part): CardBar[] {
  const links = model.bars
    .filter((bar) => bar.part === part)
    .map(({ from, to }): CardBar => ({ from: from.spec.name, to: to.spec.name, is: 'link' }));
  if (part.kind.oneNode) {
    const [own, ...studs] = part.terminals;
    return [
      ...links,
      ...studs.map(({ spec }): CardBar => ({ from: own?.part.name ?? '', to: spec.name, is: 'inside' })),
    ];
  }
  return [...links, ...commonInside(part)];
}

/** A conductor that the sides of a converter share. */
function commonInside(part: Part): CardBar[] {
  if (part.kind.behaviour.is !== 'converter' || part.facts.word('common') !== 'common') return [];
  const sign = part.facts.word('common', 'pole') === 'positive' ? '+' : '-';
  const [first, ...others] = part.terminals.filter(({ spec }) => spec.polarity === sign && spec.side !== undefined);
  return others.map(({ spec }): CardBar => ({ from: first?.spec.name ?? '', to: spec.name, is: 'inside' }));
}

/** Said elsewhere on the card, or of no use with a screwdriver in hand. */
const leftOut: ReadonlySet<string> = new Set([
  ...['stock', 'in', 'at', 'face', 'pairs', 'way', 'most', 'spares', 'reference', 'price', 'negative'],
]);

/** Its clauses as they are written. */
function ratingsOf(part: Part): string[] {
  return part.facts.facts
    .filter(({ clause }) => !leftOut.has(clause.spec.id))
    .map(({ clause, origin }) =>
      origin.statement.node.text.slice(clause.span.start, clause.span.end).replace(/\s+/gu, ' '),
    );
}

function whereOf({ enclosure, location }: Part): string {
  return [
    ...(enclosure === undefined ? [] : [`in ${enclosure.name}`]),
    ...(location === undefined ? [] : [`at ${location.name}`]),
  ].join(', ');
}

function waysOf(part: Part, terminals: readonly CardTerminal[]): CardWay[] {
  const empty = new Map(terminals.map((terminal) => [terminal.name, terminal.empty]));
  // The feed of a board and the common terminal of a relay serve several ways: what tells is the other end.
  const shared = new Set(
    part.contacts.flatMap(({ from, to }) => [from, to]).filter((name, index, all) => all.indexOf(name) !== index),
  );
  return part.contacts.map((contact) => {
    const ends = [contact.from, contact.to].filter((name) => !shared.has(name));
    const used = ends.filter((name) => empty.get(name) === false);
    return {
      pole: contact.pole,
      label: labelOf(part, contact),
      from: contact.from,
      to: contact.to,
      operated: contact.operated,
      protects: contact.protects,
      rating: ratingOf(part, contact, used.length > 0),
      use: used.length === ends.length ? 'used' : used.length > 0 ? 'one side' : 'unused',
    };
  });
}

function labelOf(part: Part, { pole, operated }: ContactSpec): string {
  if (part.contacts.length === 1) return '';
  if (part.kind.word === 'fusebox') return `way ${pole}`;
  if (operated === 'coil') return 'coil fed';
  if (operated === 'coil-rest') return 'at rest';
  return operated === 'hand' ? `pole ${pole}` : '';
}

function ratingOf(part: Part, { pole, deviceAmps }: ContactSpec, used: boolean): string {
  if (part.kind.word !== 'fusebox') return '';
  if (deviceAmps !== undefined) return amps(deviceAmps);
  if (isFuseSaid(part, pole)) return '? A';
  return used ? 'fuse not said' : '';
}

function cautionOf({ answers }: Analysis, part: Part): string {
  const sun =
    part.terminals.some(({ spec }) => spec.side === 'pv') ||
    (answers.contacts.get(part.name) ?? []).some(({ onPanelSide }) => onPanelSide);
  const battery = part.terminals.some(({ spec }) => spec.side === 'bat') || part.kind.word === 'battery';
  const mains = part.kind.word === 'inverter' || part.facts.says('from-mains');
  return [
    'Isolate and prove dead before you touch a terminal.',
    ...(sun && battery ? ['Panels are live in daylight, batteries always.'] : []),
    ...(sun && !battery ? ['Panels are live in daylight.'] : []),
    ...(battery && !sun ? ['Batteries are always live.'] : []),
    ...whenOpen(answers, part),
    ...(part.kind.word === 'inverter' ? ['Cut off, it holds a charge for a while.'] : []),
    ...(mains ? ['The mains side is for licensed people.'] : []),
  ].join(' ');
}
