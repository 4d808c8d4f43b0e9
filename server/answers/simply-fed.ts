/** Connected parts of the wiring at which everything that feeds them stands between them and one other: what drives them is told at a glance. */
import { keptWith } from '../model/lazily.ts';
import type { Layout } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import type { Source } from './ports.ts';

export interface SimplyFed {
  /** Side by side; none where only what limits its current feeds it. */
  readonly batteries: readonly Source[];
  /** The other connected part. */
  readonly other: number;
}

type Feed = Pick<Source, 'plus' | 'minus'>;

/** By connected part; undefined where it is otherwise, and where batteries elsewhere drive each other. */
export const simplyFed = keptWith((layout: Layout) => simplyFedIn(arrangementOf(layout)));

function simplyFedIn({ sources, supplies, strings, wiring }: Arrangement): (SimplyFed | undefined)[] {
  const { part, partCount } = wiring.whole;
  const ends = ({ plus, minus }: Feed) =>
    [part[wiring.node(plus)] as number, part[wiring.node(minus)] as number] as const;
  const others = Array.from({ length: partCount }, () => new Set<number>());
  for (const feed of [...sources, ...supplies, ...strings]) {
    const [plus, minus] = ends(feed);
    others[plus]?.add(minus);
    others[minus]?.add(plus);
  }
  const all = sources.filter(({ is }) => is === 'battery');
  return others.map((at, own) => {
    const [other] = at;
    if (other === undefined || at.size > 1 || other === own) return undefined;
    const batteries = all.filter((battery) => ends(battery).includes(own));
    const elsewhere = new UnionFind(partCount);
    for (const battery of all) {
      if (batteries.includes(battery)) continue;
      const [plus, minus] = ends(battery);
      if (elsewhere.find(plus) === elsewhere.find(minus)) return undefined;
      elsewhere.join(plus, minus);
    }
    return { batteries, other };
  });
}
