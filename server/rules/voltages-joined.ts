/** Two positives of different nominal voltage that meet. */
import { plainNumber } from '../../grammar/units.ts';
import { type JoinedVoltages, oneSystemRatio, type VoltageSource } from '../answers/joined-voltages.ts';
import { example } from './language.ts';
import type { Rule } from './rule.ts';
import { names, volts } from './words.ts';

function joined(second: string, ...more: string[]) {
  return example(
    'system "Shed" 12 V',
    'battery B1 agm, 12 V, 100 Ah, internal 15 mΩ',
    `battery B2 ${second}`,
    'fuse F1 30 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F2 30 A, bolt-in, 58 V, breaks 5 kA',
    'busbar POS and NEG',
    'run W1 6 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 6 mm² red, 0.4 m, F1:out to POS',
    'run W3 6 mm² black, 0.4 m, B1:- to NEG',
    'run W4 6 mm² black, 0.4 m, B2:- to NEG',
    ...more,
  );
}

const bare = ['run W5 6 mm² red, 0.2 m, B2:+ to F2:in', 'run W6 6 mm² red, 0.4 m, F2:out to POS'];

export const rule: Rule = {
  slug: 'voltages-joined',
  severity: 'error',
  group: 'battery',
  reads: ['battery.voltage', 'converter.voltage', 'charger.voltage', 'alternator.voltage', 'run.ends'],
  page: {
    title: 'Two voltages joined at their positives',
    why: 'The higher voltage drives all it can into the lower: cables glow, and whatever was made for the lower voltage is destroyed.',
    limit: `Positives of one system have one nominal voltage; figures within ${plainNumber((oneSystemRatio - 1) * 100, 0)} % of one another count as one, so that 12.8 V and 12 V do (common practice, no source). A shared negative is ordinary, and batteries in series are one supply.`,
    mend: 'Part them, and let a converter or charger stand between the two voltages. If a voltage is written wrong, right it.',
    see: ['batteries-mixed', 'short-circuit', 'system-voltage-unmet'],
    wrong: [
      {
        spec: joined('agm, 24 V, 60 Ah, internal 30 mΩ', ...bare).spec.replace(
          'internal 30 mΩ',
          'internal 30 mΩ # finds: voltages-joined "24 V"',
        ),
      },
    ],
    right: [
      joined(
        'agm, 24 V, 60 Ah, internal 30 mΩ',
        'load RADIO 20 W',
        'run W5 6 mm² red, 0.2 m, B2:+ to F2:in',
        'run W6 6 mm² red, 0.4 m, F2:out to RADIO:+',
        'run W7 6 mm² black, 0.4 m, RADIO:- to NEG',
      ),
      joined('agm, 12.6 V, 100 Ah, internal 15 mΩ', ...bare),
    ],
  },
  *check({ answers: { miswirings, systemVolts } }) {
    for (const joined of miswirings.voltages) {
      const { highest, lowest } = joined;
      const { odd, beside } = whichIsOdd(joined, systemVolts);
      const [high, low] = odd.volts > beside.volts ? [odd, beside] : [beside, odd];
      yield {
        message: `${told(high)} and ${told(low)} are joined, so the higher voltage drives all it can into the lower: part them, or put a converter or charger between.`,
        place: odd.part.facts.place('voltage'),
        subject: odd.part.name,
        figures: { highestVolts: highest.volts, lowestVolts: lowest.volts },
        related: [
          { message: `${beside.part.name} is ${volts(beside.volts)}`, place: beside.part.facts.place('voltage') },
        ],
      };
    }
  },
};

/**
 * The one to look at is the one furthest from the system’s voltage, where another has that: a battery, if there is one. Else
 * the highest, beside the lowest.
 */
function whichIsOdd(
  { sources, highest, lowest }: JoinedVoltages,
  systemVolts: number,
): { readonly odd: VoltageSource; readonly beside: VoltageSource } {
  const off = ({ volts: own }: VoltageSource) => Math.max(own / systemVolts, systemVolts / own);
  const fitting = sources.filter((one) => off(one) < oneSystemRatio);
  const beside = fitting.find(({ part }) => part.kind.word === 'battery') ?? fitting[0];
  const others = sources.filter((one) => !fitting.includes(one));
  const [first, ...more] = others;
  if (beside === undefined || first === undefined) return { odd: highest, beside: lowest };
  return { odd: more.reduce((most, one) => (off(one) > off(most) ? one : most), first), beside };
}

/** `B2:+ (24 V)`, or with all in series that make it up. */
function told({ plus, volts: own, below, part }: VoltageSource): string {
  return `${plus.id} (${volts(own)}${below.length === 0 ? '' : `, ${names([...below, part])} in series`})`;
}
