/**
 * What is 0 V in a circuit. Voltages are told from there, so it follows from what stands in the spec and not from what anything
 * is called, nor from the order of statements: another name moves no figure.
 */
import { lazilyEach } from '../model/lazily.ts';
import type { Terminal } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import type { Arrangement } from './arrangement.ts';
import { noInner, pathsFrom } from './paths.ts';
import type { Source } from './ports.ts';

/**
 * Negatives, of which the first in a connected part counts: of batteries before other sources, of the lowest in series before
 * those above it, of the largest, by what it is, then of the one that is nearest to all else by resistance. Only of those that are alike in all
 * of this does a name choose, and then they stand at the same voltage.
 */
export function referencesOf(
  { sources, supplies, strings }: Pick<Arrangement, 'sources' | 'supplies' | 'strings'>,
  network: Network,
  near: Float64Array,
): Terminal[] {
  const lowest = new Set([...supplies, ...strings].map(({ minus }) => minus));
  const size = ({ part: { facts } }: Source) => facts.number('capacity') ?? 0;
  const around = lazilyEach((end: Terminal) => {
    const paths = pathsFrom(end, network, noInner, (edge) => near[edge.index]);
    const ohms = paths.reached.reduce((sum, terminal) => sum + (paths.cost(terminal) ?? 0), 0);
    // The last digits are those of the order of a sum.
    return { count: paths.reached.length, ohms: Number(ohms.toPrecision(9)) };
  });
  return [...sources]
    .sort(
      (a, b) =>
        Number(a.is !== 'battery') - Number(b.is !== 'battery') ||
        Number(!lowest.has(a.minus)) - Number(!lowest.has(b.minus)) ||
        size(b) - size(a) ||
        (b.nominalVolts ?? 0) - (a.nominalVolts ?? 0) ||
        compare(a.part.facts.word('chemistry') ?? '', b.part.facts.word('chemistry') ?? '') ||
        around(b.minus).count - around(a.minus).count ||
        around(a.minus).ohms - around(b.minus).ohms ||
        around(a.plus).ohms - around(b.plus).ohms ||
        compare(a.part.name, b.part.name),
    )
    .map(({ minus }) => minus);
}

const compare = (a: string, b: string): number => (a < b ? -1 : Number(a > b));
