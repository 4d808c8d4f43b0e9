/** A conductor that a short circuit heats beyond what its insulation bears before the device opens. */

import type { CoreFigures } from '../answers/answers.ts';
import { curveOf, mostLetThrough } from '../answers/clearing.ts';
import { insulationOf, physicalSize } from '../answers/conditions.ts';
import type { CoreFault } from '../answers/fault-answers.ts';
import { standardSizes } from '../answers/work-out.ts';
import { keptWith } from '../model/lazily.ts';
import type { Part, Run } from '../model/model.ts';
import { withstandI2t } from '../physics/adiabatic.ts';
import type { Size } from '../physics/conductors.ts';
import { adiabaticSeconds } from '../tables/adiabatic.ts';
import { reliesOnEnd } from './device-at-end.ts';
import { lampSpec } from './language.ts';
import { citedTogether } from './limit-beside.ts';
import type { Fix, Rule } from './rule.ts';
import { thinReturn } from './thin-returns.ts';
import { isToldAsTooSmall } from './told-as-too-small.ts';
import { ampsSquared, clearingTime, deviceName, kiloamps, names, temperature } from './words.ts';

const strong = 'battery B1 lithium-iron-phosphate, 12.8 V, 200 Ah, internal 3 mΩ';
const slow = 'fuse F1 15 A, cartridge, 125 V, breaks 20 kA, operates 200 % in 5 s to 60 s';

/** A charger that gives no more than the fuse bears; what ruins its feed is what the battery drives back through the fuse. */
const charged = (size: string) =>
  lampSpec(
    { battery: strong, fuse: 'fuse F1 5 A, blade, 32 V, breaks 5 kA' },
    'fuse F2 20 A, cartridge, 125 V, breaks 20 kA, operates 200 % in 1 s to 60 s, operates 1000 % in 0.2 s to 2 s, operates 10000 % in 0.05 s to 0.1 s',
    'charger U1 from mains, 14.4 V, 20 A, insulated case',
    'run W4 10 mm² red, 0.1 m, B1:+ to F2:in',
    `run W5 ${size} red, 0.3 m, F2:out to U1:out+`,
    'run W6 10 mm² black, 0.3 m, U1:out- to B1:-',
  );

export const rule: Rule = {
  slug: 'cable-withstand',
  severity: 'error',
  group: 'cable',
  reads: ['run.size', 'run.insulation', 'fuse.rating', 'fuse.style', 'fuse.operates', 'battery.internal'],
  page: {
    title: 'A cable that a short circuit ruins before the fuse opens',
    why: 'In a short circuit all the heat stays in the copper, because there is no time for it to leave. A slow fuse on a thin cable lets so much through that the insulation melts first, though the cable bears the fuse’s rating day and night.',
    limit:
      'What the device lets through before it opens must not be above what the conductor bears: I²t ≤ k²S² for up to 5 s (IEC 60364-4-43 clause 434.5.2 and table 43A, confirmed; between its rows the rule of IEC 60364-5-54 annex A, from memory). It is taken at the least fault at the far end, at the greatest at the near end and in between. Times are those of the maker’s points (`operates`), else the longest of the body style: ISO 8820-3 and 8820-5 (from memory). Cables too small for the rating of their device are told of as `cable-too-small` alone, and a short tail to the device at its far end may do without (clause 434.2.1, from memory).',
    mend: 'Use a thicker cable, a smaller fuse, or a quicker one of the same rating.',
    see: ['cable-too-small', 'fuse-breaking-capacity', 'fuse-never-blows'],
    wrong: [
      lampSpec({
        battery: strong,
        fuse: slow,
        feed: 'run W1 10 mm² red, 0.1 m, B1:+ to F1:in',
        out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+ # finds: cable-withstand "1.5 mm²"',
        back: 'run W3 10 mm² black, 1.3 m, LAMP:- to B1:-',
      }),
      {
        spec: charged('2.5 mm²').spec.replace(
          'F2:out to U1:out+',
          'F2:out to U1:out+ # finds: cable-withstand "2.5 mm²"',
        ),
      },
    ],
    right: [
      charged('10 mm²'),
      lampSpec({
        battery: strong,
        fuse: slow,
        feed: 'run W1 10 mm² red, 0.1 m, B1:+ to F1:in',
        out: 'run W2 2.5 mm² red, 1.2 m, F1:out to LAMP:+',
        back: 'run W3 10 mm² black, 1.3 m, LAMP:- to B1:-',
      }),
      lampSpec({
        battery: strong,
        fuse: slow.replace('5 s to 60 s', '1 s to 15 s'),
        feed: 'run W1 10 mm² red, 0.1 m, B1:+ to F1:in',
        out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+',
        back: 'run W3 10 mm² black, 1.3 m, LAMP:- to B1:-',
      }),
    ],
  },
  *check(context) {
    const { answers, model } = context;
    for (const [run, cores] of answers.runs) {
      if (!cores.some(mayMelt)) continue;
      const fault = worstOf(
        cores.flatMap((figures) =>
          mayMelt(figures) && !reliesOnEnd(figures, answers) ? (answers.faults.ofCore(figures.core) ?? []) : [],
        ),
      );
      const { letThrough, letThroughAt, withstand, k } = fault ?? {};
      if (fault === undefined || letThrough === undefined || withstand === undefined || run.size === undefined)
        continue;
      if (isToldAsTooSmall(run, context) || thinReturn(run, context) !== undefined) continue;
      const devices = fault.devices.map(({ part, pole }) => ({ part, name: deviceName(part, pole) }));
      const celsius = insulationOf(run);
      const larger = standardSizes(run.size.system === 'awg').find((size) => bears(size) >= letThrough);
      function bears(size: Size): number {
        return withstandI2t(size, { celsius }, run.material).i2t;
      }
      const fixes: Fix[] =
        larger === undefined || run.facts.fact('size')?.fromStock !== undefined
          ? []
          : [
              {
                title: `Use ${larger.written}`,
                safe: false,
                edits: [{ place: run.sizePlace, newText: larger.written }],
              },
            ];
      yield {
        message: `A short circuit on ${run.name} (${kiloamps(letThroughAt?.amps ?? 0)}, up to ${clearingTime(letThroughAt?.seconds ?? 0)}) lets ${ampsSquared(letThrough)} through before ${names(devices)} ${devices.length > 1 ? 'open' : 'opens'}, but ${run.size.written} for ${temperature(celsius, model)} bears ${ampsSquared(withstand)} (${citedTogether(fault.sources)}): use ${larger === undefined ? 'a thicker cable' : larger.written}, or a smaller or quicker fuse.`,
        place: run.sizePlace,
        subject: run.name,
        figures: {
          letThrough,
          withstand,
          k: k ?? 0,
          faultAmps: letThroughAt?.amps ?? 0,
          seconds: letThroughAt?.seconds ?? 0,
        },
        related: devices.map(({ part, name }) => ({
          message: `${name} clears it`,
          place: part.facts.place(part.facts.says('operates') ? 'operates' : 'rating'),
        })),
        fixes,
      };
    }
  },
};

/** The root of what a device lets through at most, for each ampere of its rating; undefined where nothing tells its times. */
const rootOfMost = keptWith((device: Part): number | undefined => {
  const curve = curveOf(device);
  return curve === undefined ? undefined : Math.sqrt(mostLetThrough(curve, 1, adiabaticSeconds));
});

const withstandOf = keptWith((run: Run): number =>
  run.size === undefined
    ? Number.POSITIVE_INFINITY
    : withstandI2t(physicalSize(run.size), { celsius: insulationOf(run) }, run.material).i2t,
);

/**
 * Whether its devices could let through more than it bears at any current: only then are its faults worked out. Currents of
 * several devices in one conductor add up, and the roots of what they let through are no less than that of their sum.
 */
function mayMelt({ core: { run }, protection: { blank, devices } }: CoreFigures): boolean {
  if (blank || devices.length === 0) return false;
  let roots = 0;
  for (const { part, amps: rating } of devices) {
    const root = rootOfMost(part);
    // Of a device of which no times are known nothing can be said.
    if (root === undefined) return false;
    roots += root * rating;
  }
  return roots ** 2 > withstandOf(run);
}

function worstOf(faults: readonly CoreFault[]): CoreFault | undefined {
  return faults
    .filter(({ withstands }) => withstands === false)
    .sort((a, b) => (b.letThrough ?? 0) - (a.letThrough ?? 0))[0];
}
