/** A cable that its gland or entry does not fit: too thick, too thin, or one more than there are holes. */
import { plainNumber } from '../../grammar/units.ts';
import type { Part, Passage, Run } from '../model/model.ts';
import { entryThread, threadMm } from '../tables/entry-threads.ts';
import { boxed } from './boxed.ts';
import { exceeds } from './exceeds.ts';
import { glandFor } from './glands.ts';
import type { Reported, Rule } from './rule.ts';
import { clampsOf, wallsOf } from './walls.ts';
import { names } from './words.ts';

const clamping = 'entry E1 in BOX, gland M16, 1 hole, clamps 4 to 8 mm';

export const rule: Rule = {
  slug: 'gland-and-cable',
  severity: 'warning',
  group: 'entries',
  reads: ['entry.way', 'entry.holes', 'entry.clamps', 'run.od', 'run.enters'],
  page: {
    title: 'A gland that does not fit its cable',
    why: 'A gland seals and holds only what lies within its clamping range. A cable too thin for it slips and lets water in; one too thick does not go through, or is squeezed; and two cables in one hole leave a gap between them that nothing seals.',
    limit:
      'The clamping range that the maker states, which is said with `clamps`. Where nothing is said, the range usual for the thread stands in, as advice only, since EN 62444 fixes none (confirmed; the usual ranges are common practice, no source). Nothing passes a thread that is as thick as the thread itself.',
    mend: 'Fit a gland whose range takes the outside diameter, or an entry with a hole for each cable, and say `clamps` as its maker states it.',
    see: ['gland-and-knockout', 'entry-without-gland'],
    wrong: [
      boxed({ out: 'od 8.1 mm, enters BOX by E1 # finds: gland-and-cable "by E1"' }, clamping),
      boxed({ out: 'od 3.9 mm, enters BOX by E1 # finds: gland-and-cable "by E1"' }, clamping),
      boxed(
        { into: 'od 5 mm, enters BOX by E1', out: 'od 5 mm, enters BOX by E1' },
        'entry E1 in BOX, gland M16, 1 hole, clamps 4 to 8 mm # finds: gland-and-cable "1 hole"',
      ),
      boxed({ out: 'od 12 mm, enters BOX by gland M12 # finds: gland-and-cable "by gland M12"' }),
      boxed({ out: 'od 6.1 mm, enters BOX by gland M12 # finds: gland-and-cable "by gland M12"' }),
    ],
    right: [
      boxed({ out: 'od 8 mm, enters BOX by E1' }, clamping),
      boxed({ out: 'od 4 mm, enters BOX by E1' }, clamping),
      boxed(
        { into: 'od 5 mm, enters BOX by E1', out: 'od 5 mm, enters BOX by E1' },
        'entry E1 in BOX, gland M16, 2 holes, clamps 4 to 8 mm',
      ),
      boxed({ out: 'od 6 mm, enters BOX by gland M12' }),
    ],
  },
  *check({ model }) {
    for (const [entry, passing] of wallsOf(model).users) {
      const holes = entry.facts.number('holes');
      if (holes === undefined || !exceeds(passing.length, holes)) continue;
      yield {
        message: `${entry.name} has ${holes} hole${holes === 1 ? '' : 's'}, but ${passing.length} cables go through it (${names(passing.map(({ run }) => run))}), and two in one hole are not sealed: fit one with ${passing.length} holes, or give a cable a gland of its own.`,
        place: entry.facts.place('holes'),
        subject: entry.name,
        figures: { holes, cables: passing.length },
        related: passing.map(({ run, passage }) => ({ message: `${run.name} goes through it`, place: passage.place })),
        fixes: [
          {
            title: `Use one with ${passing.length} holes`,
            safe: false,
            edits: [{ place: entry.facts.place('holes'), newText: `${passing.length} holes` }],
          },
        ].filter(() => entry.facts.fact('holes')?.fromStock === undefined),
      };
    }
  },
  ofRun(run) {
    const od = run.outerDiameterMm;
    return od === undefined ? undefined : run.passages.flatMap((passage) => misfit(run, passage, od) ?? []);
  },
};

function misfit(run: Run, passage: Passage, od: number): Reported | undefined {
  const { entry, how } = passage;
  if (how !== 'gland' && entry === undefined) return undefined;
  const thread = entry === undefined ? passage.size : entry.facts.word('way');
  const stated = entry === undefined ? undefined : clampsOf(entry);
  const holes = entry === undefined ? 1 : (entry.facts.number('holes') ?? 1);
  const [least, most] =
    stated !== undefined ? [stated.leastMm, stated.mostMm] : holes === 1 ? (entryThread(thread)?.clampsMm ?? []) : [];
  const isTooThick = threadMm(thread) > 0 && !exceeds(threadMm(thread), od);
  if (!isTooThick && (least === undefined || most === undefined || !(exceeds(od, most) || exceeds(least, od))))
    return undefined;
  const thick = `${run.name} is ${plainNumber(od, 1)} mm thick`;
  const fitting = entry?.name ?? `a gland ${thread}`;
  const better = glandFor(od);
  const base = {
    place: passage.howPlace,
    subject: run.name,
    related: relatedTo(entry, passage),
    fixes:
      entry === undefined && better !== thread && threadMm(better) > 0
        ? [
            {
              title: `Use gland ${better}`,
              safe: false,
              edits: [{ place: passage.howPlace, newText: `by gland ${better}` }],
            },
          ]
        : [],
  };
  if (isTooThick || least === undefined || most === undefined)
    return {
      ...base,
      message: `${thick} and does not go through ${fitting}${entry === undefined ? '' : `, a gland ${thread}`}: fit one that takes it, such as ${better}.`,
      figures: { outerDiameterMm: od, threadMm: threadMm(thread) },
    };
  const range = `${plainNumber(least, 1)} to ${plainNumber(most, 1)} mm`;
  const fails = exceeds(od, most) ? 'is squeezed or does not go in' : 'is neither held nor sealed';
  return {
    ...base,
    ...(stated === undefined ? { severity: 'advice' as const } : {}),
    message:
      stated === undefined
        ? `${thick}, but a gland ${thread} usually clamps ${range}, so the cable ${fails}: ${better === thread ? '' : `fit ${better}, or `}say what yours clamps at an entry of its own (entry … clamps 4 to 8 mm).`
        : `${thick}, but ${fitting} clamps ${range}, so the cable ${fails}: fit one that clamps ${plainNumber(od, 1)} mm.`,
    figures: { outerDiameterMm: od, leastMm: least, mostMm: most, stated: stated !== undefined },
  };
}

function relatedTo(entry: Part | undefined, { enclosure }: Passage) {
  const part = entry ?? enclosure;
  return part === undefined ? [] : [{ message: `${part.name} is declared here`, place: part.namePlace }];
}
