/** A load, or what takes current in, with more voltage than it bears. */
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
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
      'The highest voltage that the maker states (`highest`), against the voltage at its terminals, or at its input, in every case where it is on (common practice, no source). What does not say so is not judged: say it of everything that has electronics in it, from its plate or its papers.',
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
    if (highest === undefined || !(highest > 0) || isCrossed(part)) return undefined;
    return (context) => beyond(part, highest, context);
  },
};

function beyond(part: Part, highest: number, { model, answers }: RuleContext): Reported[] {
  let most: { readonly volts: number; readonly name: string } | undefined;
  for (const one of answers.cases) {
    const here = one.converged ? one.partIn(part) : undefined;
    const taken = here?.input ?? here;
    if (taken?.volts === undefined || !((taken.amps ?? 0) > 1e-9)) continue;
    if (most === undefined || taken.volts > most.volts) most = { volts: taken.volts, name: one.name };
  }
  if (most === undefined || !exceeds(most.volts, highest)) return [];
  const { name } = most;
  const place = model.cases.find((one) => one.name === name && !one.implied)?.namePlace;
  return [
    {
      message: `${part.name} gets ${volts(most.volts)} in case ${name}, but bears no more than ${volts(highest)}, and may burn out: feed it by a converter that gives what it is made for, or fit one that bears more.`,
      place: part.facts.place('highest'),
      subject: part.name,
      figures: { volts: most.volts, highestVolts: highest, case: name },
      related: place === undefined ? [] : [{ message: `${name} is this case`, place }],
    },
  ];
}
