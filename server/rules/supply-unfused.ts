/** A load that a battery feeds with no protective device anywhere on the way. */
import type { Answers, CoreFigures } from '../answers/answers.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { amps, names } from './words.ts';

export const rule: Rule = {
  slug: 'supply-unfused',
  severity: 'error',
  group: 'protection',
  reads: ['run.ends', 'fuse.rating', 'breaker.rating', 'load.cranking'],
  page: {
    title: 'A circuit without a fuse',
    why: 'A battery gives hundreds of ampere into a chafed cable. Without a fuse nothing ends that but the cable, glowing.',
    limit:
      'Every conductor that a battery can drive has an overcurrent protective device (IEC 60364-4-43 clause 431, from memory; 33 CFR 183.455(a), confirmed). Panels, alternators, controllers and converters limit their own current, so a cable that carries that needs none at their end. Starter motors are exempt.',
    mend: 'Put a fuse at the beginning of the circuit, close to the battery or busbar, no larger than the cable carries.',
    see: ['protection-too-far', 'cable-too-small'],
    wrong: [
      lampSpec({
        fuse: 'switch F1 1 pole, 10 A dc, 24 V',
        feed: 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:1 # finds: supply-unfused "W1"',
        out: 'run W2 1.5 mm² red, 1.2 m, F1:2 to LAMP:+',
      }),
    ],
    right: [
      lampSpec(),
      lampSpec(
        {},
        'load STARTER 90 A, cranking',
        'run W4 25 mm² red, 1 m, B1:+ to STARTER:+',
        'run W5 25 mm² black, 1 m, STARTER:- to B1:-',
      ),
    ],
  },
  *check({ answers }) {
    const unfused = (figures: CoreFigures | undefined) =>
      figures !== undefined &&
      !Number.isFinite(figures.protection.amps) &&
      !figures.protection.blank &&
      !figures.beforeFirstDevice &&
      !figures.onPanelSide &&
      !figures.isReturn &&
      !figures.crankingOnly;
    const reported = new Set<string>();
    for (const { load, cores } of answers.loads.values()) {
      if (load.facts.says('cranking')) continue;
      const way = cores
        .map((core) => answers.cores.get(core))
        .filter((figures) => figures !== undefined && !figures.isReturn) as CoreFigures[];
      const last = way.at(-1);
      if (last === undefined || !unfused(last)) continue;
      // The nearest core to the battery that serves only what has no fuse: there the fuse belongs.
      const bare = new Set(
        [...answers.loads.values()]
          .filter((other) =>
            unfused(
              answers.cores.get(other.cores.filter((core) => !answers.cores.get(core)?.isReturn).at(-1) as never),
            ),
          )
          .map((other) => other.load),
      );
      const first =
        way.find(
          (figures) => unfused(figures) && figures.loads.every((part) => bare.has(part) || part.facts.says('cranking')),
        ) ?? last;
      const { run } = first.core;
      if (reported.has(run.name)) continue;
      reported.add(run.name);
      const from = first.protection.unprotectedFrom;
      const fed = first.loads.filter((part) => bare.has(part));
      yield {
        message: `${run.name} feeds ${names(fed)} from ${names(from) || 'the battery'} with no fuse or breaker on the way: put one at its beginning, ${largest(first, answers)}.`,
        place: run.namePlace,
        subject: run.name,
        figures: {
          ...(first.capacity === undefined ? {} : { capacityAmps: first.capacity.amps }),
          designAmps: first.designAmps,
        },
        related: from.map((battery) => ({ message: `${battery.name} drives it`, place: battery.namePlace })),
      };
    }
  },
};

/** The most that the device may be rated, for the cable where it lies. */
function largest({ core, capacity }: CoreFigures, { limits, systemVolts }: Answers): string {
  if (capacity === undefined || !(capacity.amps > 0)) return 'no larger than its cable carries';
  const { amps: most } = limits.permittedDeviceAmps(capacity, systemVolts);
  return `of at most ${amps(most)}, which is what ${core.run.size?.written ?? 'its cable'} may have here`;
}
