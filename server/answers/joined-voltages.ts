/** Positives of different nominal voltage that meet: each a source that sets a voltage of its own. */
import type { Part, Terminal } from '../model/model.ts';
import type { Arrangement } from './arrangement.ts';
import { groupBy } from './grouping.ts';

export interface VoltageSource {
  readonly part: Part;
  readonly plus: Terminal;
  /** Of batteries in series at the top of them all: what they make together. */
  readonly volts: number;
  /** The batteries below it in series that make it up with it, from the bottom; none of most. */
  readonly below: readonly Part[];
}

export interface JoinedVoltages {
  /** All whose pluses meet there. */
  readonly sources: readonly VoltageSource[];
  readonly highest: VoltageSource;
  readonly lowest: VoltageSource;
}

/**
 * Nominal voltages that differ by less are one system: 12.8 V lithium beside 12 V, and an alternator’s 14.2 V
 * (common practice, no source).
 */
export const oneSystemRatio = 1.3;

/** More than any vehicle has: beyond it a wrong spec could make a chain without end. */
const mostInSeries = 64;

/** Contacts count as closed. Where the minus of a battery is among what is joined, batteries are in series or shorted. */
export function joinedVoltages({ layout, wiring }: Arrangement): JoinedVoltages[] {
  const partOf = (terminal: Terminal) => wiring.whole.part[wiring.node(terminal)] ?? -1;
  const outputs = layout.parts.flatMap((part) => outputOf(part) ?? []);
  const minusOf = ({ part }: VoltageSource) => {
    const minus = part.terminals.find(({ spec }) => spec.polarity === '-');
    return part.kind.word === 'battery' && minus !== undefined ? partOf(minus) : undefined;
  };
  const batteries = groupBy(
    outputs.filter(({ part }) => part.kind.word === 'battery'),
    ({ plus }) => partOf(plus),
  );
  const known = new Map<number, Stack>();
  /** What batteries in series make up to here; a circle of them, which is another fault, is cut anywhere. */
  const stackAt = (part: number | undefined, depth = 0): Stack => {
    if (part === undefined || depth > mostInSeries) return none;
    let stack = known.get(part);
    if (stack === undefined) {
      known.set(part, none);
      stack = none;
      for (const one of batteries.get(part) ?? []) {
        const under = stackAt(minusOf(one), depth + 1);
        const volts = one.volts + under.volts;
        if (volts > stack.volts) stack = { volts, parts: [...under.parts, one.part] };
      }
      known.set(part, stack);
    }
    return stack;
  };
  const sources = outputs.map((source): VoltageSource => {
    const { volts, parts } = stackAt(minusOf(source));
    return { volts: source.volts + volts, below: parts, part: source.part, plus: source.plus };
  });
  const inSeries = new Set<number>();
  for (const { part, plus } of sources) {
    const minus = part.kind.word === 'battery' ? part.terminals.find(({ spec }) => spec.polarity === '-') : undefined;
    if (minus !== undefined && minus !== plus) inSeries.add(partOf(minus));
  }
  const joined: JoinedVoltages[] = [];
  const ended = new Set(layout.joints.flatMap(({ from, to }) => [from, to]));
  // A battery with nothing on its minus drives nothing, and is likely the upper half of what makes its voltage.
  const isOpen = ({ kind, terminals }: Part) =>
    kind.word === 'battery' && terminals.some((one) => one.spec.polarity === '-' && !ended.has(one));
  const driving = sources.filter(({ part, below }) => ![part, ...below].some(isOpen));
  for (const [part, here] of groupBy(driving, ({ plus }) => partOf(plus))) {
    if (inSeries.has(part)) continue;
    const highest = here.reduce((most, one) => (one.volts > most.volts ? one : most));
    const lowest = here.reduce((least, one) => (one.volts < least.volts ? one : least));
    if (highest.volts >= oneSystemRatio * lowest.volts) joined.push({ sources: here, highest, lowest });
  }
  return joined;
}

interface Stack {
  readonly volts: number;
  readonly parts: readonly Part[];
}

const none: Stack = { volts: 0, parts: [] };

function outputOf(part: Part): VoltageSource | undefined {
  const { kind, facts, terminals } = part;
  const volts = facts.number('voltage');
  const name =
    kind.word === 'battery' || kind.word === 'alternator'
      ? '+'
      : kind.word === 'charger' || kind.word === 'converter'
        ? 'out+'
        : undefined;
  const plus = terminals.find(({ spec }) => spec.name === name);
  return volts === undefined || !(volts > 0) || plus === undefined ? undefined : { part, plus, volts, below: [] };
}
