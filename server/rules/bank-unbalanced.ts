/** Batteries side by side of which one does more than its share: for its leads are shorter, or the batteries unlike. */
import { plainNumber } from '../../grammar/units.ts';
import type { CaseAnswer } from '../answers/answers.ts';
import { batteryOhms } from '../answers/charging.ts';
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import type { Rule, RuleContext } from './rule.ts';
import { amps, percent } from './words.ts';

function bank(takeOff: 'B1:-' | 'B2:-', link: string) {
  return {
    spec: example(
      'system "Shed" 12 V',
      'battery B1 and B2 lithium-iron-phosphate, 12.8 V, 100 Ah, internal 2 mΩ',
      'fuse F1 125 A, cartridge, 125 V, breaks 20 kA',
      'fuse F2 70 A, class-t, 125 V, breaks 20 kA',
      'load HEATER 100 A',
      'run W1 35 mm² red, 0.2 m, B1:+ to F1:in',
      `run W2 35 mm² red, ${link}, B1:+ to F2:in`,
      'run W6 35 mm² red, 0.01 m, F2:out to B2:+',
      `run W3 35 mm² black, 105 °C, ${link}, B1:- to B2:-`,
      'run W4 35 mm² red, 1 m, F1:out to HEATER:+',
      `run W5 35 mm² black, 1 m, HEATER:- to ${takeOff}`,
    ).spec,
  };
}

/** What a battery may give above its fair share (common practice, no source). */
const most = 1.1;

export const rule: Rule = {
  slug: 'bank-unbalanced',
  severity: 'warning',
  group: 'battery',
  reads: ['battery.internal', 'battery.capacity', 'run.length', 'run.size', 'run.ends'],
  page: {
    title: 'A bank in which one battery works harder',
    why: 'The battery with the shortest leads gives and takes most, ages first, and pulls the others down after it. So does a small one beside a large one on leads alike, or one with less resistance inside.',
    limit: `No battery in parallel gives more than ${percent((most - 1) * 100)} above its share by capacity, as worked out from the leads and the inner resistances in the case with the greatest current, where that is a twentieth of the bank’s capacity an hour or more (common practice, no source).`,
    mend: 'Take the plus off at one end of the bank and the minus at the other, or lead every battery to a busbar with leads of one length and size. Of unlike batteries take ones that are alike.',
    see: ['load-on-part-of-bank', 'batteries-mixed', 'discharge-over-battery'],
    wrong: [
      { spec: bank('B1:-', '0.5 m').spec.replace('internal 2 mΩ', 'internal 2 mΩ # finds: bank-unbalanced "B1"') },
    ],
    right: [bank('B2:-', '0.5 m'), bank('B1:-', '0.3 m')],
  },
  *check(context) {
    for (const { firm } of context.answers.banks)
      for (const strings of firm) {
        const tops = strings.flatMap((string) => string.at(-1) ?? []);
        if (tops.length < 2 || tops.some((one) => !isAlike(one, tops[0]))) continue;
        const worst = hardest(tops, context);
        if (worst === undefined || !exceeds(worst.given, most * worst.fair)) continue;
        const { battery, given, fair, case: name } = worst;
        yield {
          message: `${battery.name} gives ${amps(given)} in case ${name} where its share is ${amps(fair)}, because ${because(battery, strings)}.`,
          place: battery.namePlace,
          subject: battery.name,
          figures: { amps: given, shareAmps: fair, mostAmps: most * fair },
          related: tops
            .filter((one) => one !== battery)
            .map((one) => ({ message: `${one.name} gives less`, place: one.namePlace })),
        };
      }
  },
};

/** What makes it give more, and what to do: inner resistances that by themselves share so, unlike capacities on leads alike, or leads. */
function because(battery: Part, strings: readonly (readonly Part[])[]): string {
  const alike = 'take batteries of one capacity and make';
  const all = strings.flatMap((string) => {
    const top = string.at(-1);
    return top === undefined
      ? []
      : [{ top, hours: capacityOf(top), ohms: string.reduce((sum, one) => sum + batteryOhms(one), 0) }];
  });
  const own = all.find(({ top }) => top === battery);
  const others = all.filter(({ top }) => top !== battery);
  const larger = others.reduce((a, b) => (b.hours > a.hours ? b : a), others[0] as (typeof others)[number]);
  if (own === undefined || others.length === 0) return '';
  const siemens = all.reduce((sum, { ohms }) => sum + 1 / ohms, 0);
  const hours = all.reduce((sum, one) => sum + one.hours, 0);
  const byInner = 1 / own.ohms / siemens;
  const sizes = `${battery.name} (${ampereHours(own.hours)}) and ${larger.top.name} (${ampereHours(larger.hours)})`;
  const isUnlike = exceeds(larger.hours, own.hours);
  if (exceeds(byInner, (most * own.hours) / hours))
    return isUnlike
      ? `${sizes} are unlike, and the smaller’s resistance inside is too low for its size: ${alike}`
      : `its resistance inside is lower than the others’: ${alike}`;
  return isUnlike
    ? `${sizes} are unlike and their leads are not in proportion: ${alike}, or give the larger leads that are as much shorter or thicker`
    : 'its leads are shorter than the others’: take plus and minus off at opposite ends of the bank, or give all leads one length and size';
}

function capacityOf({ facts }: Part): number {
  return facts.number('capacity') ?? 0;
}

function ampereHours(coulombs: number): string {
  return `${plainNumber(coulombs / secondsOfHour, 1)} Ah`;
}

/** Of different voltages or sorts other things than their leads decide. */
function isAlike({ facts }: Part, other: Part | undefined): boolean {
  return (
    facts.word('chemistry') === other?.facts.word('chemistry') &&
    facts.number('voltage') === other?.facts.number('voltage')
  );
}

/** Amperes an ampere-hour of the bank below which it is spared whatever the shares are (common practice, no source). */
const leastRate = 0.05;
const secondsOfHour = 3600;

/** Ampere: what rounding leaves of a battery that is cut off. */
const none = 1e-9;

/** The battery furthest above its share, in the case with the greatest current that treats them alike. */
function hardest(batteries: readonly Part[], { model, answers }: RuleContext) {
  const capacities = batteries.map(capacityOf);
  const whole = capacities.reduce((sum, one) => sum + one, 0);
  const alike = new Set(
    model.cases
      .filter((one) =>
        batteries.every(({ name }) => !one.chargeOf.has(name) && !one.voltsOf.has(name) && !one.on.has(name)),
      )
      .map(({ name }) => name),
  );
  const given = (one: CaseAnswer) => batteries.map((battery) => one.partIn(battery)?.amps ?? 0);
  const sum = (one: CaseAnswer) => given(one).reduce((total, part) => total + part, 0);
  // Of one whose fuse is out the others take the share.
  const isWhole = (one: CaseAnswer) => given(one).every((amount) => Math.abs(amount) > none);
  const cases = answers.cases.filter((one) => one.converged && alike.has(one.name) && isWhole(one));
  const heaviest = cases.reduce<CaseAnswer | undefined>(
    (a, b) => (a === undefined || sum(b) > sum(a) ? b : a),
    undefined,
  );
  if (heaviest === undefined || !(whole > 0) || sum(heaviest) < (leastRate * whole) / secondsOfHour) return undefined;
  const shares = given(heaviest).map((amount, i) => ({
    battery: batteries[i] as Part,
    given: amount,
    fair: (sum(heaviest) * (capacities[i] ?? 0)) / whole,
    case: heaviest.name,
  }));
  return shares
    .filter(({ fair }) => fair > 0)
    .reduce((a, b) => (b.given / b.fair > a.given / a.fair ? b : a), shares[0] as (typeof shares)[number]);
}
