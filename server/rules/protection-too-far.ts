/** A first protective device too far from the battery along the cable. */

import type { Answers, UnfusedLength } from '../answers/answers.ts';
import type { Core, Run } from '../model/model.ts';
import type { LimitSet } from '../physics/limits/limit-set.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import { citedBriefly, saidWhole } from './limit-beside.ts';
import type { Rule } from './rule.ts';
import { length } from './words.ts';

export const rule: Rule = {
  slug: 'protection-too-far',
  severity: 'error',
  group: 'protection',
  reads: ['run.length', 'system.limits', 'run.sheathed'],
  page: {
    title: 'The first fuse is too far from the battery',
    why: 'The length between battery and fuse is protected by nothing: the shorter it is, the less there is to chafe.',
    limit:
      '`iec-60364-5-52`: 3 m along the conductor where the risk of short-circuit and fire is kept small (IEC 60364-4-43 clause 433.2.2, from memory). `cfr-33-183`: 72 inches from the battery (33 CFR 183.460, from memory). `nec-310`: 18 inches (NEC 551.10(E)(3), from memory). `iso-13297`: 200 mm (ISO 10133 clause 8.1, from memory), sheathed over the whole length 3 m as with IEC 60364. A set of your own (`limit-set`) may say other lengths. Closer is better.',
    mend: 'Move the fuse to the battery, or the cable’s beginning to the fuse.',
    see: ['supply-unfused', 'both-ends-need-protection'],
    wrong: [
      lampSpec({ feed: 'run W1 2.5 mm² red, 3.2 m, B1:+ to F1:in # finds: protection-too-far "3.2 m"' }),
      lampSpec({
        system: 'system "Shed" 12 V, limits cfr-33-183',
        feed: 'run W1 12 AWG red, 6.5 ft, B1:+ to F1:in # finds: protection-too-far "6.5 ft"',
      }),
    ],
    right: [
      lampSpec({
        system: 'system "Shed" 12 V, limits cfr-33-183',
        feed: 'run W1 12 AWG red, 5.5 ft, B1:+ to F1:in',
      }),
      lampSpec({ feed: 'run W1 2.5 mm² red, 2.9 m, B1:+ to F1:in' }),
    ],
  },
  *check({ answers }) {
    for (const { battery, device, metres, run, limit, isOneOfSeveral } of tooFar(answers)) {
      const bring = isOneOfSeveral
        ? `put one on ${run.name} within ${length(limit.metres, run)} of ${battery.name}`
        : `bring it within ${length(limit.metres, run)}`;
      yield {
        message: `${device.name} is ${length(metres, run)} along the cable from ${battery.name}, and all of that is without a fuse: ${bring}, the closer the better (${citedBriefly(limit.source)}).`,
        place: run.facts.place('length'),
        subject: run.name,
        figures: { metres, limitMetres: limit.metres, device: device.name, battery: battery.name },
        related: [
          { message: `${battery.name} stands here`, place: battery.namePlace },
          { message: `${device.name} is the first device`, place: device.namePlace },
          ...saidWhole(limit.source, run.namePlace),
        ],
      };
    }
  },
};

interface TooFar extends Pick<UnfusedLength, 'battery' | 'device' | 'metres'> {
  /** The longest on the way. */
  readonly run: Run;
  readonly limit: ReturnType<LimitSet['unfusedLength']>;
  /** The cable leads to several first devices: bringing one of them nearer would leave the others. */
  readonly isOneOfSeveral: boolean;
}

/** First devices beyond the limit; of several at the end of one cable the nearest. */
export function tooFar({ unfused, unfusedStretches, loneDevices, limits, cores: figures }: Answers): TooFar[] {
  // Moving a device that stands alone between two batteries brings it nearer to one only: that is a finding of its own.
  const alone = new Set(loneDevices.map(({ device, pole }) => `${pole} ${device.name}`));
  // A cable that wants a device of its own is told as that.
  const bare = new Set(unfusedStretches.flatMap(({ cores }) => cores));
  const found = new Map<string, TooFar>();
  for (const { battery, device, pole, cores, metres } of unfused) {
    const longest = longestOf(cores);
    if (longest === undefined || bare.has(longest) || alone.has(`${pole} ${device.name}`)) continue;
    const limit = limits.unfusedLength(cores.every(({ run }) => run.facts.says('sheathed')));
    const key = `${battery.name} ${longest.run.name}`;
    if (!exceeds(metres, limit.metres) || figures.get(longest)?.crankingOnly || found.has(key)) continue;
    const isOneOfSeveral = unfused.some(
      (other) => other.battery === battery && other.device !== device && other.cores.includes(longest),
    );
    found.set(key, { battery, device, metres, run: longest.run, limit, isOneOfSeveral });
  }
  return [...found.values()];
}

export function longestOf(cores: readonly Core[]): Core | undefined {
  return [...cores].sort((a, b) => (b.run.lengthMetres ?? 0) - (a.run.lengthMetres ?? 0))[0];
}
