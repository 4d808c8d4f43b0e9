/** A way between two batteries with one protective device on it: what lies between that and the other battery has none. */
import type { Answers, LoneDevice, UnfusedLength } from '../answers/answers.ts';
import type { Run } from '../model/model.ts';
import type { TableSource } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import { citedBriefly, saidWhole } from './limit-beside.ts';
import { longestOf, tooFar } from './protection-too-far.ts';
import type { Rule } from './rule.ts';
import { deviceName, length, names } from './words.ts';

/** Two batteries drive more through it than a blade fuse usually breaks. */
const strongFuse = { fuse: 'fuse F1 5 A, blade, 32 V, breaks 3 kA' } as const;

const second = [
  'battery B2 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
  'relay K1 coil 12 V 150 mA, contact 150 A',
  'run W6 25 mm² black, 1 m, B2:- to B1:-',
  'switch S1 1 pole, 10 A dc, 24 V',
  'run W7 1 mm² red, 1 m, F1:out to S1:1',
  'run W11 1 mm² red, 1 m, S1:2 to K1:86',
  'run W8 1 mm² black, 1 m, K1:85 to B1:-',
] as const;

export const rule: Rule = {
  slug: 'both-ends-need-protection',
  severity: 'error',
  group: 'protection',
  reads: ['run.ends', 'run.length', 'run.sheathed', 'fuse.rating', 'breaker.rating', 'system.limits'],
  page: {
    title: 'A cable between two batteries with a fuse at one end only',
    why: 'Each battery drives a short-circuit from its own side. A fuse at one end stops the battery there; the other goes on feeding the fault through the whole cable, and nothing but the cable ends it.',
    limit:
      'Every battery has a device within the unfused length of the set of limits (`protection-too-far` tells them): what is between the only device and the farther battery is an error beyond that. Within it, yet with both sides of the device together longer, it is a warning: two batteries that are linked by more than that want a device at each (common practice, no source). Alternators, chargers, controllers and converters limit their own current, so a cable that carries that needs none at their end.',
    mend: 'Put a second fuse or breaker at the other battery, no larger than the cable carries.',
    see: ['supply-unfused', 'protection-too-far', 'cable-too-small'],
    wrong: [
      lampSpec(
        strongFuse,
        'fuse F2 100 A, bolt-in, 58 V, breaks 3 kA',
        'run W4 25 mm² red, 0.2 m, B2:+ to F2:in',
        'run W5 25 mm² red, 0.4 m, F2:out to K1:30',
        'run W9 25 mm² red, 4.2 m, K1:87 to B1:+ # finds: both-ends-need-protection "W9"',
        ...second,
      ),
      lampSpec(
        strongFuse,
        'fuse F2 100 A, bolt-in, 58 V, breaks 3 kA',
        'run W4 25 mm² red, 2.4 m, B2:+ to F2:in',
        'run W5 25 mm² red, 0.4 m, F2:out to K1:30',
        'run W9 25 mm² red, 2.2 m, K1:87 to B1:+ # finds: both-ends-need-protection "W9"',
        ...second,
      ),
    ],
    right: [
      lampSpec(
        strongFuse,
        'fuse F2 100 A, bolt-in, 58 V, breaks 3 kA',
        'fuse F3 100 A, bolt-in, 58 V, breaks 3 kA',
        'run W4 25 mm² red, 0.2 m, B2:+ to F2:in',
        'run W5 25 mm² red, 0.4 m, F2:out to K1:30',
        'run W9 25 mm² red, 4.2 m, K1:87 to F3:out',
        'run W10 25 mm² red, 0.2 m, F3:in to B1:+',
        ...second,
      ),
      lampSpec(
        {},
        'alternator A1 14.2 V, 70 A, fixed',
        'fuse F2 80 A, bolt-in, 58 V, breaks 3 kA',
        'run W4 25 mm² red, 4.2 m, A1:+ to F2:out',
        'run W5 25 mm² red, 0.2 m, F2:in to B1:+',
        'run W6 25 mm² black, 1 m, A1:- to B1:-',
      ),
    ],
  },
  *check({ answers }) {
    const told = new Set<string>();
    // Where another device is too far along the same cable, one at its battery mends both.
    const far = new Set(tooFar(answers).map(({ battery, run }) => `${battery.name} ${run.name}`));
    for (const one of answers.loneDevices) {
      const verdict = judged(one, answers);
      const pair = [one.near.battery.name, one.far.battery.name].sort().join(' ');
      if (verdict === undefined || told.has(pair)) continue;
      const { run, over, limit } = verdict;
      if (over && far.has(`${one.far.battery.name} ${run.name}`)) continue;
      told.add(pair);
      const { near, far: other } = one;
      const name = deviceName(one.device, one.pole);
      const between = `between ${near.battery.name} and ${other.battery.name}`;
      const [metres, nearMetres] = [length(other.metres, run), length(near.metres, run)];
      const most = length(limit.metres, run);
      yield {
        ...(over ? {} : { severity: 'warning' as const }),
        message: over
          ? `${name} alone stands ${between}, so nothing protects the ${metres} from ${other.battery.name} to it (${runsOf(other)}): put another within ${most} of ${other.battery.name}, the closer the better (${citedBriefly(limit.source)}).`
          : `${name} alone stands ${between}, ${nearMetres} from one and ${metres} from the other, so each drives a short-circuit on its own side of it: put one at each battery, or keep the whole link within ${most}.`,
        place: run.namePlace,
        subject: run.name,
        figures: { nearMetres: near.metres, farMetres: other.metres, limitMetres: limit.metres, device: name },
        related: [
          { message: `${name} is the only device between them`, place: one.device.namePlace },
          { message: `${other.battery.name} has none on this side`, place: other.battery.namePlace },
          { message: `${near.battery.name} stands at the other end`, place: near.battery.namePlace },
          ...(over ? saidWhole(limit.source, run.namePlace) : []),
        ],
      };
    }
  },
};

interface Verdict {
  readonly run: Run;
  /** The longer side alone is beyond the limit. */
  readonly over: boolean;
  readonly limit: { readonly metres: number; readonly source: TableSource };
}

function judged({ near, far }: LoneDevice, { limits, cores }: Answers): Verdict | undefined {
  const longest = longestOf(far.cores);
  if (longest === undefined || cores.get(longest)?.crankingOnly) return undefined;
  const limit = limits.unfusedLength([...near.cores, ...far.cores].every(({ run }) => run.facts.says('sheathed')));
  if (!exceeds(near.metres + far.metres, limit.metres)) return undefined;
  return { run: longest.run, over: exceeds(far.metres, limit.metres), limit };
}

/** The cables of a side, or the first and the last of many. */
function runsOf({ cores }: UnfusedLength): string {
  const runs = [...new Set(cores.map(({ run }) => run))];
  const [first, last] = [runs[0], runs.at(-1)];
  return runs.length <= 4 || first === undefined || last === undefined ? names(runs) : `${first.name} to ${last.name}`;
}
