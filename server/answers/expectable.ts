/** What is worked out of a part, run or terminal in every case, and so can be expected of it. */
import type { Model, Part } from '../model/model.ts';

export type Expectable = 'voltage' | 'current' | 'drop' | 'temperature' | 'charge';

/** Those with a plus and a minus of their own, between which a voltage is told. */
const acrossItself: ReadonlySet<string> = new Set([
  'battery',
  'panel',
  'alternator',
  'converter',
  'inverter',
  'load',
  'socket',
]);

/** Those whose drop is told: from what feeds them to their own terminals and back. */
const fedOverAWay: ReadonlySet<string> = new Set(['load', 'socket', 'inverter']);

/** By a name, or a terminal’s id; none of what is not known. A charge is worked out of nothing: a battery’s is said by cases. */
export function expectableOf(subject: string, { parts, runs, terminals }: Pick<Model, 'parts' | 'runs' | 'terminals'>) {
  const part = parts.get(subject);
  if (part !== undefined) return ofPart(part);
  const isKnown = runs.has(subject) || terminals.has(subject);
  if (!isKnown) return none;
  return runs.has(subject) ? ofRun : ofTerminal;
}

const none: readonly Expectable[] = [];
const ofRun: readonly Expectable[] = ['current', 'drop', 'temperature'];
const ofTerminal: readonly Expectable[] = ['voltage', 'current'];

function ofPart({ kind: { behaviour, oneNode }, contacts }: Part): readonly Expectable[] {
  const hasVolts = oneNode || acrossItself.has(behaviour.is);
  return [
    ...(hasVolts ? (['voltage'] as const) : []),
    ...(hasVolts || contacts.length > 0 ? (['current'] as const) : []),
    ...(fedOverAWay.has(behaviour.is) ? (['drop'] as const) : []),
    ...(behaviour.is === 'battery' ? (['charge'] as const) : []),
  ];
}
