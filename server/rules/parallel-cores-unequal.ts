/** Cores in parallel that do not share the current alike. */
import { keptWith } from '../model/lazily.ts';
import type { Terminal } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { names, percent } from './words.ts';

/** How much their resistances may differ before their lengths, sizes or materials must be different (common practice, no source). */
const sameWithin = 1.05;

const pair = (second: string) =>
  lampSpec({ out: `run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+${second === '' ? '' : `\n${second}`}` });

export const rule: Rule = {
  slug: 'parallel-cores-unequal',
  severity: 'warning',
  group: 'cable',
  reads: ['run.ends', 'run.size', 'run.length', 'run.material'],
  page: {
    title: 'Cables in parallel that are not alike',
    why: 'The shorter or thicker of two cables side by side takes most of the current, and gets too warm while the other idles. When one comes loose the other carries all.',
    limit:
      'Conductors in parallel are of the same material, size and length (IEC 60364-4-43 clause 433.4, from memory); a difference of 5 % in resistance is let off (common practice, no source).',
    mend: 'Make them alike, or use one cable that carries it all.',
    see: ['cable-too-small', 'charging-drop'],
    wrong: [
      lampSpec({
        out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+ # finds: parallel-cores-unequal "W2"\nrun W4 1.5 mm² red, 2.4 m, F1:out to LAMP:+',
      }),
    ],
    right: [pair('run W4 1.5 mm² red, 1.2 m, F1:out to LAMP:+'), pair('')],
  },
  *check({ answers }) {
    const { edges, layout } = answers.network;
    for (const joints of besideEachOther(layout)) {
      const cores = joints.flatMap((joint) => {
        const edge = edges[joint];
        return edge?.is === 'core' ? [edge.core] : [];
      });
      const parallel = cores.flatMap((core) => {
        const ohms = answers.cores.get(core)?.ohms;
        return ohms === undefined || !(ohms > 0) ? [] : [{ core, ohms }];
      });
      // One whose size or length is not known might be like the others.
      if (parallel.length < 2 || parallel.length < cores.length) continue;
      const [least, ...others] = parallel.sort((a, b) => a.ohms - b.ohms);
      const most = others.at(-1);
      if (least === undefined || most === undefined || !exceeds(most.ohms / least.ohms, sameWithin)) continue;
      const all = parallel.reduce((sum, { ohms }) => sum + 1 / ohms, 0);
      const share = 100 / least.ohms / all;
      const { run } = least.core;
      yield {
        message: `${names(parallel.map(({ core }) => core.run))} lie side by side between ${least.core.from?.id} and ${least.core.to?.id} and are not alike, so ${run.name} takes ${percent(share)} of the current: make them of one size and length, or use one larger cable.`,
        place: run.namePlace,
        subject: run.name,
        figures: { sharePercent: share, timesTheResistance: most.ohms / least.ohms },
        related: others.map(({ core }) => ({ message: `${core.run.name} lies beside it`, place: core.run.namePlace })),
      };
    }
  },
};

/** Indices of cores between the same two nodes, where there are several. */
const besideEachOther = keptWith(({ joints, terminals }: Layout): readonly (readonly number[])[] => {
  const between = new Map<number, number[]>();
  for (const { is, from, to, index } of joints) {
    const [one, other] = [nodeOf(from), nodeOf(to)];
    if (is !== 'core' || one === other) continue;
    const key = Math.min(one, other) * terminals.length + Math.max(one, other);
    const known = between.get(key);
    if (known === undefined) between.set(key, [index]);
    else known.push(index);
  }
  return [...between.values()].filter(({ length }) => length > 1);
});

/** All studs of a bar are one. */
function nodeOf({ part, index }: Terminal): number {
  return part.kind.oneNode ? (part.terminals[0]?.index ?? index) : index;
}
