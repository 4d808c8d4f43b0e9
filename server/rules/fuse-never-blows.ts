/** A device that the least short circuit on what it protects does not open. */

import type { Answers, ContactFigures } from '../answers/answers.ts';
import { curveOf, opensFrom, timeOf } from '../answers/clearing.ts';
import { standardRatings } from '../answers/devices.ts';
import type { DeviceFault } from '../answers/fault-answers.ts';
import { feedsBattery } from '../answers/ports.ts';
import { lazily } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import { reliesOnEnd } from './device-at-end.ts';
import { example, lampSpec } from './language.ts';
import { citedBriefly } from './limit-beside.ts';
import { offerRating } from './other-rating.ts';
import { ratingPlace } from './rating-place.ts';
import type { Reported, Rule } from './rule.ts';
import { oversizedStringFuses } from './string-fuse-too-large.ts';
import { isToldAsTooSmall } from './told-as-too-small.ts';
import { amps, deviceName, names } from './words.ts';

const sun = (fuse: string) =>
  example(
    'system "Shed" 12 V',
    'panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A',
    fuse,
    'controller U1 mppt, pv 50 V 15 A, output 10 A, common negative',
    'fuse F1 15 A, blade, 32 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'run W1 4 mm² red, 2 m, P1:+ to F2:in',
    'isolator QP 1 pole, 25 A dc, 60 V, category DC-PV2',
    'run W2 4 mm² red, 2 m, F2:out to QP:1',
    'run W20 4 mm² red, 1 m, QP:2 to U1:pv+',
    'run W3 4 mm² black, 4 m, P1:- to U1:pv-',
    'run W4 4 mm² red, 0.5 m, U1:bat+ to F1:out',
    'run W5 4 mm² red, 0.1 m, F1:in to B1:+',
    'run W6 4 mm² black, 0.5 m, U1:bat- to B1:-',
  );

const fence = (fuse: string, size: string) =>
  lampSpec({
    fuse,
    load: 'load LAMP 3 W, lowest 9 V',
    out: `run W2 ${size} red, 24 m, F1:out to LAMP:+`,
    back: `run W3 ${size} black, 24 m, LAMP:- to B1:-`,
  });

export const rule: Rule = {
  slug: 'fuse-never-blows',
  severity: 'warning',
  group: 'protection',
  restsOnAllNames: true,
  reads: ['fuse.rating', 'fuse.style', 'fuse.operates', 'run.length', 'run.size', 'panel.isc', 'battery.internal'],
  page: {
    title: 'A fuse that a short circuit does not blow',
    why: 'A fuse opens only when clearly more than its rating flows. At the end of a long thin cable the cable itself may let less through: the short circuit goes on, empties the battery and warms whatever it burns at. Panels give little more in a short circuit than in full sun, so that a fuse chosen to bear the sun never blows from it.',
    limit:
      'The least short-circuit current at the far end of what a device protects must open it (IEC 60364-4-43 clause 434.5, from memory): it is taken with the battery empty and the copper as hot as its insulation allows, and the device opens from the least current at which its maker (`operates`) or the standard of its body style says by when: 1.35 times the rating of blade and bolt-in fuses (ISO 8820-3, ISO 8820-5, from memory). Of other devices it is known only that they do not open at their rating and below. Behind panels and other sources that limit their own current it is advice only: there it is the cable that must bear the current.',
    mend: 'Take a smaller fuse if the loads allow it, or a thicker or shorter cable. Behind panels do not count on the fuse, except against what other strings or the battery drive back.',
    see: ['cable-withstand', 'drop-over-limit', 'string-fuse-needed'],
    wrong: [
      fence('fuse F1 10 A, blade, 32 V # finds: fuse-never-blows "10 A"', '1 mm²'),
      sun('fuse F2 10 A, gpv, 150 V # finds: fuse-never-blows "10 A"'),
    ],
    right: [fence('fuse F1 5 A, blade, 32 V', '1 mm²'), fence('fuse F1 10 A, blade, 32 V', '1.5 mm²')],
  },
  *check(context) {
    const { answers } = context;
    const unfed = lazily(
      () => new Set(answers.cases.flatMap(({ overloads }) => overloads.flatMap(({ parts }) => parts))),
    );
    // A string fuse too large for its panels is told of as that.
    const oversized = lazily(() => new Set(oversizedStringFuses(context).map(({ fuse }) => fuse)));
    for (const contacts of answers.contacts.values()) {
      // Poles of one breaker have one rating.
      const told = new Set<string>();
      for (const contact of contacts) {
        if (contact.device?.amps === undefined || contact.device.blank) continue;
        const device = answers.faults.ofDevice(contact.part, contact.pole);
        if (device === undefined || (device.clears !== 'never' && device.clears !== 'not surely')) continue;
        if (oversized().has(contact)) continue;
        // What panels alone feed is opened by a breaker, and not protected.
        if (contact.part.kind.word === 'breaker' && contact.onPanelSide) continue;
        const { leastAt } = device;
        const least = leastAt === undefined ? undefined : answers.cores.get(leastAt);
        // A cable that is too small for the device, or for its own load, is told of as that.
        if (
          leastAt !== undefined &&
          least !== undefined &&
          (isToldAsTooSmall(leastAt.run, context) ||
            reliesOnEnd(least, answers) ||
            least.loads.some((load) => unfed().has(load)))
        )
          continue;
        const reported = judge(device, contact, answers);
        if (reported === undefined || told.has(reported.message)) continue;
        told.add(reported.message);
        yield reported;
      }
    }
  },
};

function judge(device: DeviceFault, contact: ContactFigures, answers: Answers): Reported | undefined {
  // Behind what limits its own current no cable relies on a device, and none is its least.
  const { part, pole, ratedAmps = 0, leastAmps, leastAt, clears, greatestAmps } = device;
  if ((clears !== 'never' && clears !== 'not surely') || !(greatestAmps > 0)) return;
  const name = deviceName(part, pole);
  const base = {
    place: ratingPlace(contact),
    subject: part.name,
    figures: { greatestAmps, ratedAmps, pole, ...(leastAmps === undefined ? {} : { leastAmps }) },
    related:
      leastAt === undefined
        ? []
        : [{ message: `${leastAt.run.name} is where least flows`, place: leastAt.run.namePlace }],
  };
  if (!device.leastByBattery) {
    if (clears !== 'never') return;
    const limited = [...new Set(contact.protection.limitedSources.map((source) => source.part))];
    // Without the battery that they charge nothing there is as it will be, and what keeps them from it is told of.
    const charging = limited.filter(
      ({ kind }) => feedsBattery(kind) || ['alternator', 'charger', 'inverter'].includes(kind.word),
    );
    const isCharging = (part: Part) =>
      answers.banks.some(
        ({ chargers, alternators }) => alternators.includes(part) || chargers.some((one) => one.part === part),
      );
    if (charging.length > 0 && charging.length === limited.length && !charging.some(isCharging)) return;
    const feeders =
      feedersOf(device, answers) ||
      (limited.length === 0 ? 'its source gives' : `${names(limited)} ${limited.length === 1 ? 'gives' : 'give'}`);
    return {
      ...base,
      severity: 'advice',
      message: `${name} never blows from what ${feeders}: that is ${amps(greatestAmps)} even in a short circuit, no more than its ${amps(ratedAmps)}; let the cable bear that current, and count on the fuse only against what comes from elsewhere.`,
    };
  }
  if (leastAmps === undefined || leastAt === undefined) return;
  const curve = curveOf(part);
  const surely = curve === undefined ? Number.POSITIVE_INFINITY : opensFrom(curve);
  const from = curve === undefined || curve.from === 'stated' ? '' : ` (${citedBriefly(curve.from)})`;
  const opens =
    leastAmps <= ratedAmps
      ? `${name} carries its ${amps(ratedAmps)} for ever`
      : `${name} is sure to blow only from ${amps(surely * ratedAmps)} on${from}`;
  const smaller = standardRatings(part.kind.word, part.facts.word('style')).findLast(
    (rating) =>
      rating < ratedAmps &&
      rating >= contact.designAmps &&
      leastAmps > rating &&
      (curve === undefined || (timeOf(curve, rating, leastAmps)?.most ?? 0) < Number.POSITIVE_INFINITY),
  );
  return {
    ...base,
    message: `A short circuit at the far end of ${leastAt.run.name} may let only ${amps(leastAmps)} flow (battery empty, cable hot), but ${opens}: ${smaller === undefined ? '' : `fit ${amps(smaller)}, or `}use a thicker or shorter cable.`,
    fixes: offerRating(contact, smaller),
  };
}

/** `P1 and P2 give`: the panels of the device’s own side, by its runs; empty where other sources feed it. */
function feedersOf({ part, pole }: DeviceFault, { contacts, cores }: Answers): string {
  const contact = contacts.get(part.name)?.find((one) => one.pole === pole);
  if (contact?.onPanelSide !== true) return '';
  const island = [...cores.values()].filter(({ onPanelSide }) => onPanelSide);
  const panels = island.flatMap(({ core: { from, to } }) =>
    [from, to].flatMap((end) => (end?.part.kind.behaviour.is === 'panel' ? [end.part] : [])),
  );
  const unique = [...new Set(panels)];
  return unique.length === 0
    ? ''
    : unique.length > 4
      ? 'its panels give'
      : `${names(unique)} ${unique.length === 1 ? 'gives' : 'give'}`;
}
