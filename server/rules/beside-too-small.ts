/** What stands beside the finding of a cable that is too small: what is not said of it, what feeds it, and its returns. */
import type { CoreFigures } from '../answers/answers.ts';
import type { Model, Run } from '../model/model.ts';
import type { Capacity } from '../physics/limits/limit-set.ts';
import type { Verdict } from './cable-verdict.ts';
import { exceeds } from './exceeds.ts';
import { rowOf } from './in-a-row.ts';
import { returnsWithFeed } from './returns-with-feed.ts';
import type { Related, RuleContext } from './rule.ts';
import { allThinReturns, leadsBackFrom } from './thin-returns.ts';
import { amps, temperature } from './words.ts';

/** Where better insulation would carry more. */
export function insulationUnstated(run: Run, as70: Capacity, as105: Capacity, model: Model): Related[] {
  if (as105.amps <= as70.amps) return [];
  const message = `Its insulation is not stated, so ${temperature(70, model)} is assumed; stated as ${temperature(105, model)} it would be good for ${goodFor(as105)}`;
  return [{ message, place: run.sizePlace }];
}

/** The devices and sources that it is held to, and the warm places that it passes. */
export function whatFeeds(run: Run, { protection }: CoreFigures): Related[] {
  const places = run.along.flatMap(({ location }) =>
    location?.celsius === undefined
      ? []
      : [{ message: `${location.name} is where it gets warm`, place: location.namePlace }],
  );
  return [
    ...protection.devices.map(({ part, amps: rating }) => ({
      message: `${part.name} protects it at ${amps(rating)}`,
      place: part.facts.place('rating'),
    })),
    ...protection.limitedSources.map(({ part, amps: own }) => ({
      message: `${part.name} can give ${amps(own)}`,
      place: part.namePlace,
    })),
    ...places,
  ];
}

/** What goes on from it and returns of what it feeds that are too small with it: they are not told by themselves. */
export function returnsBeside(verdict: Verdict, context: RuleContext): Related[] {
  const backs = [
    ...thinReturnsOf(verdict, context),
    ...returnsWithFeed(verdict, context).map(({ figures }) => figures.core.run),
  ];
  return [
    ...rowOf(verdict, context).map(({ figures: { core } }) => ({
      message: `${core.run.name} is in line with it, and too small with it`,
      place: core.run.sizePlace,
    })),
    ...backs.map((back) => ({
      message: `${back.name} is the return of it, and too small with it`,
      place: back.sizePlace,
    })),
  ];
}

/** Those that are thinner than another feed, which bears what protects it. */
function thinReturnsOf({ figures, by }: Verdict, { answers }: RuleContext): Run[] {
  if (by !== 'device') return [];
  return [...allThinReturns(answers).keys()].filter((back) => {
    const cores = answers.runs.get(back) ?? [];
    const isToo = cores.some(
      ({ capacity, protection: { amps: device } }) =>
        capacity !== undefined &&
        exceeds(device, answers.limits.permittedDeviceAmps(capacity, answers.systemVolts).amps),
    );
    return isToo && leadsBackFrom(cores, figures);
  });
}

/** A figure that no table has as it stands says so. */
export function goodFor({ amps: value, derived }: Capacity): string {
  return `${amps(value)}${derived ? ' (reckoned from its table)' : ''}`;
}
