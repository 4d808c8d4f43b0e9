/** A system whose nominal voltage none of its batteries and other sources has. */
import type { Answers } from '../answers/answers.ts';
import { oneSystemRatio } from '../answers/joined-voltages.ts';
import type { Model } from '../model/model.ts';
import { example } from './language.ts';
import type { Rule } from './rule.ts';
import { names, volts } from './words.ts';

function lamp(system: string, battery: string, ...more: string[]) {
  return example(
    `system "Shed" ${system}`,
    `battery B1 agm, ${battery}, 80 Ah, internal 30 mΩ`,
    'fuse F1 5 A, blade, 32 V',
    'load LAMP 12 W',
    'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in',
    'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+',
    ...more,
  );
}

const back = 'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-';

/** What systems are made for; a bank of 25.6 V is one of 24 V. */
const usualVolts = [12, 24, 48];

const givesVolts = new Set(['converter', 'charger', 'alternator']);

export const rule: Rule = {
  slug: 'system-voltage-unmet',
  severity: 'warning',
  group: 'spec',
  // A converter anywhere in the spec may give what no battery does.
  scope: 'whole',
  restsOnAllNames: true,
  reads: ['system.voltage', 'battery.voltage', 'converter.voltage', 'charger.voltage', 'alternator.voltage'],
  page: {
    title: 'A system of another voltage than its battery',
    why: 'Drops are held to shares of the system’s voltage, and what does not say what it bears is taken to suit it. With the wrong one a drop that is too large passes, or one that is not is told. If it is the battery that is wrong, what is made for 12 V burns out on 24 V, and what is made for 24 V does not run on 12 V.',
    limit: `A rule of the notation itself: a system says the voltage of one of its batteries, banks in series, converters, chargers or alternators. Figures less than ${Math.round((oneSystemRatio - 1) * 100)} % apart count as one, so that 12.8 V and 12 V do (common practice, no source).`,
    mend: 'Write the voltage that the battery has, or take the battery that the system is made for. Two batteries of 12 V make 24 V in series only: the plus of one on the minus of the other.',
    see: ['voltages-joined', 'load-above-highest-voltage', 'drop-over-limit'],
    wrong: [
      lamp('12 V # finds: system-voltage-unmet "12 V"', '24 V', back),
      lamp('24 V # finds: system-voltage-unmet "24 V"', '12.8 V', back),
    ],
    right: [
      lamp('12 V', '12.8 V', back),
      lamp(
        '24 V',
        '12 V',
        'battery B2 agm, 12 V, 80 Ah, internal 30 mΩ',
        'run W3 1.5 mm² black, 1.3 m, LAMP:- to B2:-',
        'run W4 16 mm² red, 0.2 m, B2:+ to B1:-',
      ),
    ],
  },
  *check({ model, answers: { banks, miswirings } }) {
    const { facts } = model.system;
    const said = facts?.number('voltage');
    if (facts === undefined || said === undefined || !(said > 0) || banks.length === 0) return;
    // Of two voltages that are joined that alone is told.
    if (miswirings.voltages.length > 0) return;
    const isMet = (own: number) => isOneSystem(own, said);
    if (banks.some(({ nominalVolts }) => isMet(nominalVolts)) || isWiredInPart(model, banks)) return;
    for (const { kind, facts: own } of model.parts.values())
      if (givesVolts.has(kind.word) && isMet(own.number('voltage') ?? said)) return;
    const bank = banks.reduce((most, one) => (one.nominalVolts > most.nominalVolts ? one : most));
    const nominal = volts(usualVolts.find((one) => isOneSystem(bank.nominalVolts, one)) ?? bank.nominalVolts);
    const [only, ...others] = bank.batteries;
    if (only === undefined) return;
    const isHigher = bank.nominalVolts > said;
    const are = others.length > 0 ? 'make' : 'is';
    const harm = isHigher ? 'may burn out on' : 'does not run on';
    const wanted = isHigher && others.length === 0 ? 'fit a battery of' : 'fit or join batteries that make';
    const place = facts.place('voltage');
    yield {
      message: `The system is ${volts(said)}, but ${names(bank.batteries)} ${are} ${volts(bank.nominalVolts)}, and what is made for ${volts(said)} ${harm} that: write ${nominal} here if the system is meant so, else ${wanted} ${volts(said)}.`,
      place,
      subject: only.name,
      figures: { systemVolts: said, batteryVolts: bank.nominalVolts },
      related: bank.batteries.map(({ name, facts: own }) => ({
        message: `${name} is ${volts(own.number('voltage') ?? bank.nominalVolts)}`,
        place: own.place('voltage'),
      })),
      fixes: [{ title: `Write ${nominal}`, safe: false, edits: [{ place, newText: nominal }] }],
    };
  },
};

function isOneSystem(one: number, other: number): boolean {
  return Math.max(one / other, other / one) < oneSystemRatio;
}

/** What is not wired to its end may yet become what is wanted: batteries without cables, or the half of a bank. */
function isWiredInPart({ runs, problems }: Model, banks: Answers['banks']): boolean {
  if (runs.size === 0) return true;
  const open = new Set(problems.filter(({ slug }) => slug === 'terminal-unconnected').map(({ subject }) => subject));
  return banks.some(({ batteries }) => batteries.some(({ name }) => open.has(name)));
}
