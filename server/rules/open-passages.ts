/** Runs that pass a wall through a bare hole, and the ways in that would do. */
import type { Part, Run } from '../model/model.ts';
import { waysIn } from './glands.ts';
import type { Question } from './rule.ts';

export function openPassages(
  run: Run,
  counts: (enclosure: Part | undefined) => boolean,
  say: (walls: string) => string,
): Question | undefined {
  const open = run.passages.filter(({ how, enclosure }) => how === 'open' && counts(enclosure));
  if (open.length === 0) return undefined;
  return ({ model }) =>
    open.map(({ howPlace, enclosure }) => {
      const box = enclosure?.name ?? 'the wall';
      const ways = waysIn(run, enclosure, model);
      const thread = ways.find((way) => way.thread !== undefined)?.thread ?? '';
      return {
        message: `${say(box)}: ${ways.map(({ advice }) => advice).join(', or ')}.`,
        place: howPlace,
        subject: run.name,
        figures: {
          enclosure: box,
          gland: thread,
          ...(run.outerDiameterMm === undefined ? {} : { outerDiameterMm: run.outerDiameterMm }),
        },
        related: enclosure === undefined ? [] : [{ message: `${box} is declared here`, place: enclosure.namePlace }],
        fixes: ways.map(({ by }) => ({ title: `Enter ${by}`, safe: false, edits: [{ place: howPlace, newText: by }] })),
      };
    });
}
