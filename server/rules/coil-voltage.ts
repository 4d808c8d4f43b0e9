/** A relay whose coil is not for the voltage that it gets. */
import { pickUpShare } from '../answers/contacts-in-case.ts';
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Fix, Reported, Rule, RuleContext } from './rule.ts';
import { volts } from './words.ts';

/** Part of its rated voltage that a coil bears without end (common practice, no source). */
const most = 1.35;

/** Below this a coil is not fed at all. */
export const deadVolts = 1;

const coilVolts = [6, 12, 24, 48];

const relayed = (relay: string) =>
  lampSpec(
    { out: 'busbar POS 50 A\nrun W2 1.5 mm² red, 0.2 m, F1:out to POS' },
    relay,
    'switch S1 1 pole, 10 A dc, 24 V',
    'run W4 1.5 mm² red, 1 m, POS to K1:30',
    'run W5 1.5 mm² red, 1 m, K1:87 to LAMP:+',
    'run W6 1.5 mm² red, 1 m, POS to S1:1',
    'run W7 1.5 mm² red, 1 m, S1:2 to K1:86',
    'run W8 1.5 mm² black, 1 m, K1:85 to B1:-',
  );

export const rule: Rule = {
  slug: 'coil-voltage',
  severity: 'error',
  group: 'switching',
  reads: ['relay.coil', 'battery.voltage', 'case.charge'],
  page: {
    title: 'A coil for another voltage',
    why: 'A coil at twice its voltage takes four times its power: it burns out, and may set fire to what is round it. One at half its voltage does not pull, or chatters until its contact welds.',
    limit:
      'A coil bears 1.35 times its rated voltage without end, which leaves room for charging, and surely pulls in at 0.7 times it (common practice, no source; the maker’s figures come first). The voltage is that at the coil, in every case that has an answer. A relay that says at what it opens or closes is not judged from below.',
    mend: 'Fit a relay with a coil for the voltage of the circuit that works it, or work it from a converter that gives what it wants.',
    see: ['relay-always-on', 'switch-voltage', 'voltages-joined'],
    wrong: [
      relayed('relay K1 coil 6 V 150 mA, contact 30 A # finds: coil-voltage "6 V"'),
      relayed('relay K1 coil 24 V 75 mA, contact 30 A # finds: coil-voltage "24 V"'),
    ],
    right: [relayed('relay K1 coil 12 V 150 mA, contact 30 A')],
  },
  forKind: ({ behaviour }) => behaviour.is === 'coil',
  ofPart(part) {
    const rated = part.facts.number('coil', 'voltage');
    return rated === undefined || !(rated > 0) ? undefined : (context) => misfit(part, rated, context);
  },
};

function misfit(part: Part, rated: number, { answers }: RuleContext): Reported[] {
  const { name, facts } = part;
  const seen = answers.cases.flatMap((one) => {
    const at = one.partIn(part)?.coilVolts;
    return at === undefined || !(Math.abs(at) > deadVolts) ? [] : [{ volts: Math.abs(at), caseName: one.name }];
  });
  const [highest] = seen.sort((one, other) => other.volts - one.volts);
  if (highest === undefined) return [];
  const isOver = exceeds(highest.volts, most * rated);
  const isUnder =
    exceeds(pickUpShare * rated, highest.volts) && !facts.says('opens-below') && !facts.says('closes-above');
  if (!isOver && !isUnder) return [];
  const fitting = coilVolts.find(
    (one) => !exceeds(highest.volts, most * one) && !exceeds(pickUpShare * one, highest.volts),
  );
  const wanted = fitting === undefined ? 'one for that voltage' : `one for ${volts(fitting)}`;
  return [
    {
      ...(isOver ? {} : { severity: 'warning' as const }),
      message: isOver
        ? `The coil of ${name} is for ${volts(rated)}, but gets ${volts(highest.volts)} in case ${highest.caseName}, and burns out in time: fit ${wanted}.`
        : `The coil of ${name} is for ${volts(rated)}, but gets no more than ${volts(highest.volts)}, in case ${highest.caseName}, and does not surely pull in: fit ${wanted}.`,
      place: facts.place('coil', 'voltage'),
      subject: name,
      figures: { ratedVolts: rated, volts: highest.volts },
      fixes: fitting === undefined ? [] : fixes(part, fitting),
    },
  ];
}

function fixes({ facts }: Part, fitting: number): Fix[] {
  if (facts.fact('coil')?.fromStock !== undefined) return [];
  return [
    {
      title: `Use a coil for ${volts(fitting)}`,
      safe: false,
      edits: [{ place: facts.place('coil', 'voltage'), newText: volts(fitting) }],
    },
  ];
}
