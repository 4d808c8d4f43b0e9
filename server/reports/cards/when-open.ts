/** What stays live when a switch, isolator, relay or board is open, all its poles together, and what is live from two sides. */
import type { Answers, ContactFigures } from '../../answers/answers.ts';
import type { Part, Terminal } from '../../model/model.ts';
import type { Edge } from '../../model/network.ts';
import { positionsOf } from '../../model/selector-positions.ts';
import { reach } from '../../rules/reach.ts';
import { listed } from '../figures.ts';
import { nameOf } from './face.ts';

/** Sentences for its card; none of what opens nothing. */
export function whenOpen(answers: Answers, part: Part): readonly string[] {
  if (part.kind.family === 'conversion') return fromBothSides(answers, part);
  const opening = howOpened(part);
  if (opening === undefined) return [];
  if (part.kind.word === 'selector' && positionsOf(part).every(({ name }) => name !== 'off'))
    return ['It has no off position: all its terminals stay live.'];
  const figures = (answers.contacts.get(part.name) ?? []).filter((one) => isDriven(one, answers));
  const sides = figures.map((one) => liveSides(one, answers));
  const both = sides.find(({ isBoth }) => isBoth);
  if (both !== undefined && part.kind.word !== 'fusebox') {
    const by = both.live.map(({ end, sources }) => `${end} by ${listed(sources)}`);
    return [`Open, both its sides stay live: ${by.join(', ')}.`];
  }
  if (figures.length > 0 && figures.every(({ isReturn }) => isReturn))
    return [`It opens the negative alone: ${opening.when}, what it serves stays live at the voltage of the positive.`];
  const ends = new Set(sides.flatMap(({ live }) => live.map(({ end }) => end)));
  const live = part.terminals.map(nameOf).filter((name) => ends.has(name));
  if (live.length > 0) return [`${opening.says}, ${listed(live)} ${live.length === 1 ? 'stays' : 'stay'} live.`];
  return opening.byHand ? [`${opening.says}, its supply side stays live.`] : [];
}

interface Opening {
  /** At the beginning of a sentence, and within one. */
  readonly says: string;
  readonly when: string;
  readonly byHand: boolean;
}

function howOpened(part: Part): Opening | undefined {
  const operated = new Set(part.contacts.map((one) => one.operated));
  if (operated.has('position')) return { says: 'Turned off', when: 'turned off', byHand: true };
  if (operated.has('hand')) return { says: 'Switched off', when: 'switched off', byHand: true };
  if (operated.has('coil')) return { says: 'With its coil at rest', when: 'with its coil at rest', byHand: false };
  return part.kind.word === 'fusebox' ? { says: 'Fuses out', when: 'fuses out', byHand: false } : undefined;
}

function isDriven({ part, pole }: ContactFigures, { directions }: Answers): boolean {
  const { forward, backward } = directions.ofContact(part, pole);
  return forward.sources.length > 0 || backward.sources.length > 0;
}

interface LiveSides {
  /** The ends of a contact that a source is joined to, and by which. */
  readonly live: readonly { readonly end: string; readonly sources: readonly string[] }[];
  /** A source drives it from either end. */
  readonly isBoth: boolean;
}

/** With all poles of its part open. */
function liveSides({ part, pole, isReturn, onPanelSide }: ContactFigures, { network, directions }: Answers): LiveSides {
  const contact = part.contacts.find((one) => one.pole === pole);
  if (contact === undefined) return { live: [], isBoth: false };
  const { forward, backward } = directions.ofContact(part, pole);
  const opens = (edge: Edge) => edge.is !== 'contact' || edge.part !== part;
  const sourcesAt = (end: string, sources: readonly Part[]) => {
    const from = part.terminals.find(({ spec }) => spec.name === end);
    if (from === undefined || sources.length === 0) return [];
    const reached = reach(from, network, opens);
    // What is the battery’s negative behind a controller too is dead once the panels are off it.
    const counts = ({ kind }: Part) => !onPanelSide || kind.behaviour.is === 'panel';
    const isReached = ({ terminals }: Part) => terminals.some((terminal: Terminal) => reached.has(terminal));
    return sources.filter((source) => counts(source) && isReached(source)).map(({ name }) => name);
  };
  // What drives a return comes out of it at the end of its source.
  const [atFrom, atTo] = isReturn ? [backward, forward] : [forward, backward];
  const live = (
    [
      [contact.from, atFrom],
      [contact.to, atTo],
    ] as const
  ).flatMap(([end, { sources }]) => {
    const found = sourcesAt(end, sources);
    return found.length === 0 ? [] : [{ end, sources: found }];
  });
  return { live, isBoth: live.length > 1 && !isReturn };
}

/** A converter or charger between two supplies: one of them isolated, the other still feeds it. */
function fromBothSides({ network }: Answers, part: Part): readonly string[] {
  if (part.terminals.some(({ spec }) => spec.side === 'pv')) return [];
  const sides = part.terminals.flatMap((terminal) => {
    if (terminal.spec.polarity !== '+') return [];
    const sources = [...reach(terminal, network, () => true)].filter(
      ({ part: own, spec }) => own !== part && own.kind.family === 'source' && spec.polarity === '+',
    );
    return sources.length === 0
      ? []
      : [{ name: nameOf(terminal), by: listed([...new Set(sources.map((one) => one.part.name))]) }];
  });
  if (sides.length < 2) return [];
  return [`Live from both sides: ${sides.map(({ name, by }) => `${name} by ${by}`).join(', ')}. Isolate both.`];
}
