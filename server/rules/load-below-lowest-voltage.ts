/** A load that is switched on with less voltage than it works at. */
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { example, lampSpec } from './language.ts';
import { leastSeen, nominalOf, wantsHigher } from './other-voltage.ts';
import type { Example, Reported, Rule, RuleContext } from './rule.ts';
import { volts } from './words.ts';
import { isCrossed } from './working-voltages.ts';

/** A battery that is charged from another by a feed of so many metres. */
function charging(lowest: string, metres: string): Example {
  return example(
    'system "Trailer" 12 V, ambient 30 °C',
    'battery B1 and B2 agm, 12 V, 80 Ah, sealed, internal 8 mΩ',
    'fuse F1 and F2 30 A, bolt-in, 58 V, breaks 5 kA',
    `charger U1 12 V, 18 A, common negative, insulated case, ${lowest}`,
    'run W1 6 mm² red, 105 °C, 0.2 m, B1:+ to F1:in',
    `run W2 6 mm² red, 105 °C, ${metres}, F1:out to U1:in+`,
    `run W3 6 mm² black, 105 °C, ${metres}, U1:in- to B1:-`,
    'run W4 6 mm² red, 105 °C, 1 m, U1:out+ to F2:out',
    'run W5 6 mm² red, 105 °C, 0.2 m, F2:in to B2:+',
    'run W6 6 mm² black, 105 °C, 1 m, U1:out- to B2:-',
    'case drive U1 on',
  );
}

export const rule: Rule = {
  slug: 'load-below-lowest-voltage',
  severity: 'warning',
  group: 'network',
  reads: [
    'load.lowest',
    'socket.lowest',
    'load.highest',
    'socket.highest',
    'charger.lowest',
    'charger.highest',
    'converter.lowest',
    'converter.highest',
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
      'The lowest voltage that the maker states (`lowest`), against the voltage at its terminals in every case where it is on (common practice, no source). Where too much is lost on the way that alone is told of, as `drop-over-limit`. Inputs of chargers and converters are held to it while they give something; what is lost before a charger is told here alone.',
    mend: 'Charge the battery earlier or take a larger one, use a larger cable, or feed the load by a converter that holds its voltage.',
    see: ['load-above-highest-voltage', 'drop-over-limit', 'expect-not-met', 'system-voltage-unmet'],
    wrong: [
      lampSpec(
        { load: 'load LAMP 12 W, lowest 11.8 V # finds: load-below-lowest-voltage "lowest 11.8 V"' },
        'case night LAMP on, B1 at 11.8 V',
      ),
      charging('lowest 11 V # finds: load-below-lowest-voltage "lowest 11 V"', '8 m'),
    ],
    right: [
      lampSpec({ load: 'load LAMP 12 W, lowest 11.5 V' }, 'case night LAMP on, B1 at 11.8 V'),
      charging('lowest 11 V', '2 m'),
      charging('lowest 9 V', '8 m'),
      // Off, it may have what it likes.
      lampSpec({ load: 'load LAMP 12 W, lowest 11.8 V' }, 'case night LAMP off, B1 at 11.0 V'),
    ],
  },
  forKind: ({ word }) => ['load', 'socket', 'charger', 'converter'].includes(word),
  ofPart(part) {
    const lowest = part.facts.number('lowest');
    // What cranks is told of at its own current, by drop-over-limit.
    if (lowest === undefined || part.facts.says('cranking') || isCrossed(part)) return undefined;
    return (context) => tooLow(part, lowest, context);
  },
};

function tooLow(part: Part, lowest: number, { model, answers }: RuleContext): Reported[] {
  const figures = answers.loads.get(part.name);
  const worst = leastSeen(part, answers);
  // With less than none it stands the wrong way round, and polarity-reversed says so.
  if (worst === undefined || worst.volts < 0 || !exceeds(lowest, worst.volts)) return [];
  const source = figures?.source;
  const isForHigher = wantsHigher(lowest, worst);
  const limit = answers.limits.drop(part.facts.says('essential')).ratio * 100;
  const isCharger = part.kind.word === 'charger';
  if (figures !== undefined && !isForHigher) {
    if (!isCharger && exceeds(figures.dropPercent, limit)) return [];
    if (figures.lowestVolts > 0 && !exceeds(lowest, figures.lowestVolts)) return [];
  }
  const isInput = part.kind.behaviour.is === 'converter';
  const from = source?.name ?? 'its source';
  const gives = worst.volts + worst.lost;
  const nominal = nominalOf(source);
  const mend = isInput
    ? 'use larger or shorter cable, or one that works lower'
    : 'charge earlier, use a larger battery or cable, or feed it by a converter that holds its voltage';
  const place = model.cases.find(({ name, implied }) => name === worst.caseName && !implied)?.namePlace;
  return [
    {
      message: isForHigher
        ? `${part.name} works from ${volts(lowest)} on, but ${from} gives ${volts(gives)} in case ${worst.caseName}: it is made for a higher voltage. Feed it by a converter that gives that, or fit one for ${nominal === undefined ? 'this voltage' : volts(nominal)}.`
        : `${part.name} has ${volts(worst.volts)}${isInput ? ' at its input' : ''} in case ${worst.caseName}, less than the ${volts(lowest)} it works at: ${from} gives ${volts(gives)} then, and ${volts(worst.lost)} is lost on the way; ${mend}.`,
      place: part.facts.place('lowest'),
      subject: part.name,
      figures: { volts: worst.volts, lowestVolts: lowest, dropVolts: worst.lost, case: worst.caseName },
      related: place === undefined ? [] : [{ message: `${worst.caseName} is this case`, place }],
    },
  ];
}
