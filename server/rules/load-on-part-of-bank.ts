/** Loads on one battery of several in series. */
import type { Answers, LoadFigures } from '../answers/answers.ts';
import type { BatteryBank } from '../answers/banks.ts';
import type { Part, Terminal } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { joinedTo, partsJoinedTo } from './joined.ts';
import { example } from './language.ts';
import type { Rule } from './rule.ts';
import { amps, names, volts } from './words.ts';

const bus = (...more: string[]) =>
  example(
    'system "Bus" 24 V',
    'battery B1 agm, 12 V, 100 Ah, internal 5 mΩ',
    'battery B2 agm, 12 V, 100 Ah, internal 5 mΩ',
    'fuse F1 60 A, bolt-in, 58 V, breaks 5 kA',
    'load HEATER 480 W',
    'run W1 16 mm² red, 0.2 m, B2:+ to F1:in',
    'run W2 16 mm² red, 105 °C, 0.3 m, B1:+ to B2:-',
    'run W3 16 mm² red, 1 m, F1:out to HEATER:+',
    'run W4 16 mm² black, 1 m, HEATER:- to B1:-',
    ...more,
  );

const tapped = (end: string) => [
  'load RADIO 24 W',
  'fuse F2 10 A, bolt-in, 58 V, breaks 5 kA',
  'run W5 2.5 mm² red, 0.2 m, B1:+ to F2:in',
  `run W6 2.5 mm² red, 1 m, F2:out to ${end}:+`,
];

const whole = (converter: string) => [
  'fuse F2 10 A, bolt-in, 58 V, breaks 5 kA',
  'load RADIO 24 W',
  converter,
  'run W5 2.5 mm² red, 0.2 m, B2:+ to F2:in',
  'run W6 2.5 mm² red, 1 m, F2:out to U1:in+',
  'run W7 2.5 mm² black, 1 m, U1:in- to B1:-',
];

/** Ampere an ampere-hour of a battery that it may give alone: a clock, or a meter between two batteries (common practice, no source). */
const leastRate = 0.002;
const secondsOfHour = 3600;

const marked = ({ spec }: { readonly spec: string }) => ({
  spec: spec.replace('internal 5 mΩ', 'internal 5 mΩ # finds: load-on-part-of-bank "B1"'),
});

export const rule: Rule = {
  slug: 'load-on-part-of-bank',
  severity: 'warning',
  group: 'battery',
  reads: ['battery.voltage', 'battery.capacity', 'run.ends'],
  page: {
    title: 'A load on one battery of several in series',
    why: 'The battery that feeds a load by itself empties before the others of its row. Charged together they all get one current: it is never full, and the others are charged too far, gas and dry out; of lithium batteries one is cut off by its own protection, and with it the whole row.',
    limit: `No load, inverter, charger or converter hangs on a part of a row of batteries, unless that part has a charger or a converter of its own to make good for it, or what it takes is less than a ${Math.round(1 / leastRate)}th of the battery’s capacity an hour (common practice, no source).`,
    mend: 'Feed loads of the lower voltage by a converter from the whole row, or fit loads for its voltage.',
    see: ['bank-unbalanced', 'batteries-mixed', 'load-above-highest-voltage'],
    wrong: [
      marked(bus(...tapped('RADIO'), 'run W7 2.5 mm² black, 1 m, RADIO:- to B1:-')),
      marked(
        bus(
          'inverter INV 150 W, lowest 10.5 V, insulated case',
          'fuse F2 30 A, bolt-in, 58 V, breaks 5 kA',
          'run W5 6 mm² red, 0.2 m, B1:+ to F2:in',
          'run W6 6 mm² red, 1 m, F2:out to INV:+',
          'run W7 6 mm² black, 1 m, INV:- to B1:-',
        ),
      ),
      marked(
        bus(
          'converter U1 12 V, 10 A, common negative',
          'load RADIO 24 W',
          'fuse F2 20 A, bolt-in, 58 V, breaks 5 kA',
          'run W5 4 mm² red, 0.2 m, B1:+ to F2:in',
          'run W6 4 mm² red, 1 m, F2:out to U1:in+',
          'run W7 4 mm² black, 1 m, U1:in- to B1:-',
          'run W8 2.5 mm² red, 1 m, U1:out+ to RADIO:+',
          'run W9 2.5 mm² black, 1 m, RADIO:- to U1:out-',
        ),
      ),
    ],
    right: [
      bus(
        ...whole('converter U1 12 V, 10 A, isolated'),
        'run W8 2.5 mm² red, 1 m, U1:out+ to RADIO:+',
        'run W9 2.5 mm² black, 1 m, RADIO:- to U1:out-',
      ),
      // What gives it back to the battery as fast as it takes it.
      bus(
        ...tapped('RADIO'),
        'run W7 2.5 mm² black, 1 m, RADIO:- to B1:-',
        'fuse F3 10 A, bolt-in, 58 V, breaks 5 kA',
        'fuse F4 10 A, bolt-in, 58 V, breaks 5 kA',
        'converter U1 12 V, 8 A, common negative',
        'run W8 2.5 mm² red, 0.2 m, B2:+ to F3:in',
        'run W9 2.5 mm² red, 1 m, F3:out to U1:in+',
        'run W10 2.5 mm² black, 1 m, U1:in- to B1:-',
        'run W11 2.5 mm² red, 1 m, U1:out+ to F4:out',
        'run W12 2.5 mm² red, 0.2 m, F4:in to B1:+',
        'run W13 2.5 mm² black, 1 m, U1:out- to B1:-',
      ),
    ],
  },
  *check({ answers }) {
    const rows = answers.banks.flatMap(({ strings, nominalVolts }) =>
      strings.filter(({ length }) => length > 1).map((row) => ({ row, nominalVolts })),
    );
    if (rows.length === 0) return;
    for (const bank of answers.banks)
      for (const part of bank.strings) {
        const within = rows.find(({ row }) => row.length > part.length && part.every((one) => row.includes(one)));
        const [first, last] = [part[0], part.at(-1)];
        if (within === undefined || first === undefined || last === undefined) continue;
        const fed = fedBy(last, bank, within.nominalVolts, answers);
        const taken = fed.reduce((sum, { designAmps }) => sum + designAmps, 0);
        const least = (leastRate * (last.facts.number('capacity') ?? 0)) / secondsOfHour;
        if (fed.length === 0 || !exceeds(taken, least) || isMadeGood(first, last, bank, answers)) continue;
        const loads = names(fed.map(({ load }) => load));
        const others = within.row.filter((one) => !part.includes(one));
        const it = fed.length === 1 ? 'it' : 'them';
        yield {
          message: `${loads} ${fed.length === 1 ? 'takes' : 'take'} ${amps(taken)} from ${names(part)} alone of the batteries in series, so that ${names(part)} ${part.length === 1 ? 'is' : 'are'} never full and ${names(others)} ${others.length === 1 ? 'is' : 'are'} charged too far: feed ${it} ${fed.every(({ load }) => load.kind.behaviour.is === 'load' || load.kind.behaviour.is === 'socket') ? `by a converter from the whole ${volts(within.nominalVolts)}` : `from the whole ${volts(within.nominalVolts)} instead, with one made for that voltage`}.`,
          place: first.namePlace,
          subject: first.name,
          figures: { amps: taken, leastAmps: least },
          related: fed.map(({ load }) => ({ message: `${load.name} is fed by it`, place: load.namePlace })),
        };
      }
  },
};

const drawing = new Set(['load', 'socket', 'inverter', 'converter']);

/** The loads on a part of a row: of two that end at the same plus, the voltage tells which feeds a load. */
function fedBy(last: Part, { nominalVolts }: BatteryBank, wholeVolts: number, { loads }: Answers): LoadFigures[] {
  return [...loads.values()].filter(
    ({ source, supplyVolts, load }) =>
      source === last && drawing.has(load.kind.behaviour.is) && supplyVolts < (nominalVolts + wholeVolts) / 2,
  );
}

/** Whether something charges that part of a row by itself. */
function isMadeGood(first: Part, last: Part, bank: BatteryBank, { network }: Answers): boolean {
  if (bank.chargers.length > 0 || bank.alternators.length > 0) return true;
  const pole = (part: Part, polarity: '+' | '-', side?: string): Terminal | undefined =>
    part.terminals.find(({ spec }) => spec.polarity === polarity && (side === undefined || spec.side === side));
  const [plus, minus] = [pole(last, '+'), pole(first, '-')];
  if (plus === undefined || minus === undefined) return true;
  const [onPlus, onMinus] = [joinedTo(plus, network), joinedTo(minus, network)];
  return [...partsJoinedTo(plus, network)].some((part) => {
    const [out, back] = [pole(part, '+', 'out'), pole(part, '-', 'out')];
    return out !== undefined && back !== undefined && onPlus.has(out) && onMinus.has(back);
  });
}
