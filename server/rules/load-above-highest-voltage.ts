/** A load, or what takes current in, with more voltage than it bears. */
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import { nominalOf, otherVoltage, type SeenVolts, voltsSeen } from './other-voltage.ts';
import type { Related, Reported, Rule, RuleContext } from './rule.ts';
import { volts } from './words.ts';
import { isCrossed } from './working-voltages.ts';

const charging = (load: string) =>
  lampSpec(
    { load },
    'controller U1 mppt, pv 50 V 15 A, output 10 A, charge voltage 14.4 V, common negative',
    'panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A',
    'isolator QP 1 pole, 25 A dc, 60 V, category DC-PV2',
    'fuse F2 15 A, blade, 32 V',
    'run W4 4 mm² red, 2 m, P1:+ to QP:1',
    'run W5 4 mm² red, 1 m, QP:2 to U1:pv+',
    'run W6 4 mm² black, 3 m, P1:- to U1:pv-',
    'run W7 4 mm² red, 0.5 m, U1:bat+ to F2:out',
    'run W8 4 mm² red, 0.1 m, F2:in to B1:+',
    'run W9 4 mm² black, 0.5 m, U1:bat- to B1:-',
    'case noon sun 100 %, B1 at 14.3 V, LAMP on',
  );

export const rule: Rule = {
  slug: 'load-above-highest-voltage',
  severity: 'error',
  group: 'network',
  reads: [
    'load.highest',
    'socket.highest',
    'converter.highest',
    'charger.highest',
    'inverter.highest',
    'load.lowest',
    'socket.lowest',
    'converter.lowest',
    'charger.lowest',
    'inverter.lowest',
    'battery.voltage',
    'case.charge',
  ],
  page: {
    title: 'A load with more voltage than it bears',
    why: 'Electronics and strips of light-emitting diodes that are meant for a lower voltage burn out at once, and may set fire to what is round them. A 12 V load on a 24 V board is the plain case; a 12 V strip that bears no more than 12.6 V, beside a battery that is charged at 14.4 V, is the one that is found out after the first sunny day.',
    limit:
      'The highest voltage that the maker states (`highest`), against the voltage at its terminals, or at its input, in every case where it is on (common practice, no source). What does not say so is not judged, but where it works at half of what it gets that is asked for, as advice: say it of everything that has electronics in it, from its plate or its papers.',
    mend: 'Feed it by a converter that gives what it is made for, or fit one that bears what the battery has while it is charged. Write a case with the battery at its charging voltage, so that this is looked at.',
    see: ['load-below-lowest-voltage', 'voltages-joined', 'coil-voltage'],
    wrong: [
      lampSpec(
        { load: 'load LAMP 12 W, highest 12.6 V # finds: load-above-highest-voltage "highest 12.6 V"' },
        'case noon LAMP on, B1 at 14.4 V',
      ),
      charging('load LAMP 12 W, highest 12.6 V # finds: load-above-highest-voltage "highest 12.6 V"'),
    ],
    right: [
      lampSpec({ load: 'load LAMP 12 W, highest 15 V' }, 'case noon LAMP on, B1 at 14.4 V'),
      charging('load LAMP 12 W, lowest 10.8 V, highest 15 V'),
      // Off, nothing gets to it.
      lampSpec({ load: 'load LAMP 12 W, highest 12.6 V' }, 'case noon LAMP off, B1 at 14.4 V'),
    ],
  },
  forKind: ({ clauses }) => clauses.some(({ id }) => id === 'highest'),
  ofPart(part) {
    const highest = part.facts.number('highest');
    if (highest === undefined) {
      const lowest = part.facts.number('lowest');
      if (lowest === undefined || !(lowest > 0) || !drawing.has(part.kind.behaviour.is)) return undefined;
      return (context) => unsaid(part, lowest, context);
    }
    if (!(highest > 0) || isCrossed(part)) return undefined;
    return (context) => beyond(part, highest, context);
  },
};

function mostSeen(part: Part, { cases }: RuleContext['answers']): SeenVolts | undefined {
  return voltsSeen(part, cases).reduce<SeenVolts | undefined>(
    (most, one) => (most === undefined || one.volts > most.volts ? one : most),
    undefined,
  );
}

function caseAt(name: string, { cases }: RuleContext['model']): Related[] {
  const place = cases.find((one) => one.name === name && !one.implied)?.namePlace;
  return place === undefined ? [] : [{ message: `${name} is this case`, place }];
}

function beyond(part: Part, highest: number, { model, answers }: RuleContext): Reported[] {
  const most = mostSeen(part, answers);
  if (most === undefined || !exceeds(most.volts, highest)) return [];
  const nominal = nominalOf(answers.loads.get(part.name)?.source);
  const mend =
    exceeds(most.volts, otherVoltage * highest) && nominal !== undefined
      ? `it is made for a lower voltage, so feed it by a converter that gives that, or fit one for ${volts(nominal)}`
      : 'feed it by a converter that gives what it is made for, or fit one that bears more';
  return [
    {
      message: `${part.name} gets ${volts(most.volts)} in case ${most.caseName}, but bears no more than ${volts(highest)}, and may burn out: ${mend}.`,
      place: part.facts.place('highest'),
      subject: part.name,
      figures: { volts: most.volts, highestVolts: highest, case: most.caseName },
      related: caseAt(most.caseName, model),
    },
  ];
}

/** Twice the lowest it works at is the next higher of the usual voltages: 12, 24 and 48 V (common practice, no source). */
const nextHigher = 1.9;
/** Below this hardly anything is for one voltage alone, V. */
const leastSystem = 18;

/** What says how low it works, and that is half of what it gets: it may well be for half the voltage. */
function unsaid(part: Part, lowest: number, { model, answers }: RuleContext): Reported[] {
  const most = mostSeen(part, answers);
  if (most === undefined || most.volts < leastSystem || !exceeds(most.volts, nextHigher * lowest)) return [];
  const source = answers.loads.get(part.name)?.source?.name ?? 'its source';
  return [
    {
      severity: 'advice',
      message: `${part.name} works from ${volts(lowest)} on, which may mean that it is made for half of the ${volts(most.volts)} that ${source} gives it: say the most it bears, such as highest ${volts(Math.ceil(most.volts * usualRise))}; where that is less, feed it by a converter.`,
      place: part.facts.place('lowest'),
      subject: part.name,
      figures: { volts: most.volts, lowestVolts: lowest, case: most.caseName },
      related: caseAt(most.caseName, model),
    },
  ];
}

/** What a battery has while it is charged, by its nominal voltage (common practice, no source). */
const usualRise = 1.25;

const drawing: ReadonlySet<string> = new Set(['load', 'socket', 'inverter']);
