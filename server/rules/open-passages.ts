/** Runs that pass a wall through a bare hole, and the ways in that would do. */
import type { Model, Part, Run } from '../model/model.ts';
import { waysIn } from './glands.ts';
import type { Reported } from './rule.ts';

export function* openPassages(
  model: Model,
  counts: (enclosure: Part | undefined) => boolean,
  say: (run: Run, walls: string) => string,
): Generator<Reported> {
  for (const run of model.runs.values()) {
    for (const { how, howPlace, enclosure } of run.passages) {
      if (how !== 'open' || !counts(enclosure)) continue;
      const box = enclosure?.name ?? 'the wall';
      const ways = waysIn(run, enclosure, model);
      const thread = ways.find((way) => way.thread !== undefined)?.thread ?? '';
      yield {
        message: `${say(run, box)}: ${ways.map(({ advice }) => advice).join(', or ')}.`,
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
    }
  }
}
