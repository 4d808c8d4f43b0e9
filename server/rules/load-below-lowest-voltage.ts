/** A load that is switched on with less voltage than it works at. */
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { volts } from './words.ts';
import { isCrossed } from './working-voltages.ts';

export const rule: Rule = {
  slug: 'load-below-lowest-voltage',
  severity: 'warning',
  group: 'network',
  reads: [
    'load.lowest',
    'socket.lowest',
    'load.highest',
    'socket.highest',
    'load.cranking',
    'load.essential',
    'battery.voltage',
    'case.charge',
    'system.limits',
  ],
  page: {
    title: 'A load with less voltage than it works at',
    why: 'A cooler that cuts off, a pump that hums and does not turn, a lamp that flickers: below its lowest voltage a load fails just when the battery is low.',
    limit:
      'The lowest voltage that the maker states (`lowest`), against the voltage at its terminals in every case where it is on (common practice, no source). Where too much is lost on the way that alone is told of, as `drop-over-limit`.',
    mend: 'Charge the battery earlier or take a larger one, use a larger cable, or feed the load by a converter that holds its voltage.',
    see: ['load-above-highest-voltage', 'drop-over-limit', 'expect-not-met', 'system-voltage-unmet'],
    wrong: [
      lampSpec(
        { load: 'load LAMP 12 W, lowest 11.8 V # finds: load-below-lowest-voltage "lowest 11.8 V"' },
        'case night LAMP on, B1 at 11.8 V',
      ),
    ],
    right: [
      lampSpec({ load: 'load LAMP 12 W, lowest 11.5 V' }, 'case night LAMP on, B1 at 11.8 V'),
      // Off, it may have what it likes.
      lampSpec({ load: 'load LAMP 12 W, lowest 11.8 V' }, 'case night LAMP off, B1 at 11.0 V'),
    ],
  },
  forKind: ({ word }) => word === 'load' || word === 'socket',
  ofPart(part) {
    const lowest = part.facts.number('lowest');
    // What cranks is told of at its own current, by drop-over-limit.
    if (lowest === undefined || part.facts.says('cranking') || isCrossed(part)) return undefined;
    return (context) => tooLow(part, lowest, context);
  },
};

/** What asks for more than this of what its source gives is for another voltage: a battery rises by a third of itself at most. */
const otherVoltage = 1.4;

function tooLow(part: Part, lowest: number, { model, answers }: RuleContext): Reported[] {
  const figures = answers.loads.get(part.name);
  const limit = answers.limits.drop(part.facts.says('essential')).ratio * 100;
  if (figures !== undefined && exceeds(figures.dropPercent, limit)) return [];
  if (figures !== undefined && figures.lowestVolts > 0 && !exceeds(lowest, figures.lowestVolts)) return [];
  let worst: { readonly volts: number; readonly name: string; readonly lost: number } | undefined;
  for (const one of answers.cases) {
    const here = one.partIn(part);
    if (!one.converged || here?.volts === undefined || !((here.amps ?? 0) > 1e-9)) continue;
    if (worst === undefined || here.volts < worst.volts)
      worst = { volts: here.volts, name: one.name, lost: here.dropVolts ?? 0 };
  }
  // With less than none it stands the wrong way round, and polarity-reversed says so.
  if (worst === undefined || worst.volts < 0 || !exceeds(lowest, worst.volts)) return [];
  const from = figures?.source?.name ?? 'its source';
  const gives = worst.volts + worst.lost;
  // No battery of this voltage is ever so full.
  const mend = exceeds(lowest, otherVoltage * gives)
    ? 'it is made for a higher voltage, so feed it by a converter that gives that, or fit one for this'
    : 'charge earlier, use a larger battery or cable, or feed it by a converter that holds its voltage';
  const place = model.cases.find(({ name, implied }) => name === worst.name && !implied)?.namePlace;
  return [
    {
      message: `${part.name} has ${volts(worst.volts)} in case ${worst.name}, less than the ${volts(lowest)} it works at: ${from} gives ${volts(gives)} then, and ${volts(worst.lost)} is lost on the way; ${mend}.`,
      place: part.facts.place('lowest'),
      subject: part.name,
      figures: { volts: worst.volts, lowestVolts: lowest, dropVolts: worst.lost, case: worst.name },
      related: place === undefined ? [] : [{ message: `${worst.name} is this case`, place }],
    },
  ];
}
