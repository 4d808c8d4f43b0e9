/** Batteries of different kinds joined as one bank. */
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import type { Reported, Rule } from './rule.ts';

function pair(first: string, second: string, found?: string) {
  return example(
    'system "Shed" 12 V',
    `battery B1 ${first}, internal 15 mΩ`,
    `battery B2 ${second}, internal 15 mΩ${found === undefined ? '' : ` # finds: ${found}`}`,
    'fuse F1 60 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F2 60 A, bolt-in, 58 V, breaks 5 kA',
    'busbar POS and NEG',
    'run W1 16 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 16 mm² red, 0.4 m, F1:out to POS',
    'run W3 16 mm² red, 0.2 m, B2:+ to F2:in',
    'run W4 16 mm² red, 0.4 m, F2:out to POS',
    'run W5 16 mm² black, 0.4 m, B1:- to NEG',
    'run W6 16 mm² black, 0.4 m, B2:- to NEG',
  );
}

function series(first: string, second: string, found?: string) {
  return example(
    'system "Shed" 24 V',
    `battery B1 ${first}, internal 15 mΩ`,
    `battery B2 ${second}, internal 15 mΩ${found === undefined ? '' : ` # finds: ${found}`}`,
    'fuse F1 60 A, bolt-in, 58 V, breaks 5 kA',
    'load HEATER 100 W',
    'run W1 16 mm² black, 0.2 m, B1:+ to B2:-',
    'run W2 16 mm² red, 0.2 m, B2:+ to F1:in',
    'run W3 16 mm² red, 0.4 m, F1:out to HEATER:+',
    'run W4 16 mm² black, 0.4 m, HEATER:- to B1:-',
  );
}

/** What two figures of capacity in series may differ by (common practice, no source). */
const alike = 1.05;

export const rule: Rule = {
  slug: 'batteries-mixed',
  severity: 'warning',
  group: 'battery',
  reads: ['battery.chemistry', 'battery.capacity', 'run.ends'],
  page: {
    title: 'Different batteries in one bank',
    why: 'Batteries side by side have one voltage, and each chemistry wants another: one is never full, the other is overcharged. In series the smallest is empty first and is then driven backwards by the rest.',
    limit: `Batteries in parallel with no switch, relay or diode between are of one chemistry; those in series also of one capacity, within ${Math.round((alike - 1) * 100)} % (common practice, no source). Different sorts of lead-acid beside one another are advice only.`,
    mend: 'Take batteries of one make and age, or part the two with a relay, a diode or a battery-to-battery charger.',
    see: ['bank-unbalanced', 'voltages-joined'],
    wrong: [
      pair('agm, 12 V, 100 Ah', 'lithium-iron-phosphate, 12.8 V, 100 Ah', 'batteries-mixed "lithium-iron-phosphate"'),
      pair('agm, 12 V, 100 Ah', 'gel, 12 V, 100 Ah', 'batteries-mixed "gel"'),
      series('agm, 12 V, 105.1 Ah', 'agm, 12 V, 100 Ah', 'batteries-mixed "100 Ah"'),
    ],
    right: [pair('agm, 12 V, 100 Ah', 'agm, 12 V, 80 Ah'), series('agm, 12 V, 105 Ah', 'agm, 12 V, 100 Ah')],
  },
  *check({ answers: { banks, miswirings } }): Iterable<Reported> {
    for (const { firm } of banks)
      for (const strings of firm) {
        const all = [...new Set(strings.flat())];
        const sorts = [...all].sort((a, b) => rank(a) - rank(b) || (a.name < b.name ? -1 : 1));
        const [first, other] = [sorts[0], sorts.at(-1)];
        // Of two voltages that are joined that alone is told.
        if (first?.terminals.some((terminal) => miswirings.isUpset(terminal))) continue;
        if (first !== undefined && other !== undefined && chemistry(first) !== chemistry(other)) {
          const lithium = [first, other].filter((one) => chemistry(one).startsWith('lithium')).length;
          yield {
            ...(lithium === 0 ? { severity: 'advice' as const } : {}),
            message: `${first.name} is ${chemistry(first)} and ${other.name} is ${chemistry(other)}, and nothing parts them, so neither is charged as it should be: take two of a kind, or put a charger, relay or diode between.`,
            place: other.facts.place('chemistry'),
            subject: other.name,
            figures: { first: chemistry(first), second: chemistry(other) },
            related: [{ message: `${first.name} is ${chemistry(first)}`, place: first.facts.place('chemistry') }],
          };
          continue;
        }
        for (const string of strings) {
          const found = unequal(string);
          if (found !== undefined) yield found;
        }
      }
  },
};

/** The one told is the one that wants the most care. */
const ranks = ['lead-acid', 'agm', 'gel', 'lithium-ion', 'lithium-iron-phosphate'];

function rank(battery: Part): number {
  return ranks.indexOf(chemistry(battery));
}

function chemistry(battery: Part | undefined): string {
  return battery?.facts.word('chemistry') ?? '';
}

/** The smallest in series with one that holds more. */
function unequal(string: readonly Part[]): Reported | undefined {
  const known = string.flatMap((battery) => {
    const capacity = battery.facts.number('capacity');
    return capacity === undefined || !(capacity > 0) ? [] : [{ battery, capacity }];
  });
  const [least, most] = [...known]
    .sort((a, b) => a.capacity - b.capacity)
    .flatMap((one, i, all) => (i === 0 || i === all.length - 1 ? [one] : []));
  if (least === undefined || most === undefined || !exceeds(most.capacity, alike * least.capacity)) return undefined;
  const hours = (coulombs: number) => Math.round(coulombs / 36) / 100;
  return {
    message: `${least.battery.name} (${hours(least.capacity)} Ah) is in series with ${most.battery.name} (${hours(most.capacity)} Ah), so it is empty first and is then driven backwards: take batteries of one capacity.`,
    place: least.battery.facts.place('capacity'),
    subject: least.battery.name,
    figures: { leastAmpereHours: hours(least.capacity), mostAmpereHours: hours(most.capacity) },
    related: [{ message: `${most.battery.name} holds more`, place: most.battery.facts.place('capacity') }],
  };
}
