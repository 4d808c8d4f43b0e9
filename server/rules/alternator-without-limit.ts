/** An alternator that charges a battery which takes more than it should give, with nothing between that limits it. */
import type { Part } from '../model/model.ts';
import { batteriesChargedBy, batteriesIn } from './batteries-charged-by.ts';
import { driven } from './driven-example.ts';
import { example } from './language.ts';
import { reach } from './reach.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { isFirm, twoSystems } from './two-systems.ts';
import { amps } from './words.ts';

function split(alternator: string) {
  return example(
    'system "Van" 12 V',
    `alternator A1 ${alternator}`,
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'battery B2 agm, 12 V, 100 Ah, internal 15 mΩ',
    'fuse F1 100 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F2 60 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F3 60 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F4 3 A, blade, 32 V, breaks 2 kA',
    'relay K1 coil 12 V 150 mA, contact 100 A',
    'run W1 35 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 35 mm² red, 2 m, F1:out to A1:+',
    'run W3 35 mm² black, 2 m, A1:- to B1:-',
    'run W4 25 mm² red, 0.2 m, B1:+ to F2:in',
    'run W5 25 mm² red, 3 m, F2:out to K1:30',
    'run W6 25 mm² red, 0.4 m, K1:87 to F3:out',
    'run W7 25 mm² red, 0.2 m, F3:in to B2:+',
    'run W8 35 mm² black, 3 m, B2:- to B1:-',
    'run W9 1.5 mm² red, 0.2 m, B1:+ to F4:in',
    'switch S1 1 pole, 10 A dc, 24 V',
    'run W10 1.5 mm² red, 1 m, F4:out to S1:1',
    'run W11 1.5 mm² black, 1 m, K1:85 to B1:-',
    'run W12 1.5 mm² red, 1 m, S1:2 to K1:86',
  );
}

/** The isolator of the second battery. */
const isolated = split('14.2 V, 90 A, fixed')
  .spec.replace('relay K1 coil 12 V 150 mA, contact 100 A', 'isolator K1 1 pole, 100 A dc, 48 V')
  .replace('agm, 12 V, 100 Ah', 'lithium-iron-phosphate, 12.8 V, 100 Ah')
  .replace('K1:30', 'K1:1')
  .replace('K1:87', 'K1:2')
  .replace(/fuse F4.*\n/, '')
  .replace(/switch S1.*\n/, '')
  .replace(/run W(?:9|1[012]) .*\n/g, '');

/** A link that is closed by hand to start the engine from the other battery, which has a charger and a load of its own. */
const linkedByHand = {
  spec: `${isolated}${[
    'charger U2 12 V, 20 A, from mains, insulated case',
    'load FRIDGE 60 W',
    'fuse F5 25 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F6 10 A, bolt-in, 58 V, breaks 5 kA',
    'run W20 4 mm² red, 0.2 m, B2:+ to F5:in',
    'run W21 4 mm² red, 0.5 m, F5:out to U2:out+',
    'run W22 4 mm² black, 0.5 m, U2:out- to B2:-',
    'run W23 2.5 mm² red, 0.2 m, B2:+ to F6:in',
    'run W24 2.5 mm² red, 1 m, F6:out to FRIDGE:+',
    'run W25 2.5 mm² black, 1 m, FRIDGE:- to B2:-',
  ].join('\n')}\n`,
};

const mark = (spec: string) => spec.replace('90 A, fixed', '90 A, fixed # finds: alternator-without-limit "A1"');

export const rule: Rule = {
  slug: 'alternator-without-limit',
  severity: 'warning',
  group: 'battery',
  reads: ['alternator.current', 'alternator.regulation', 'battery.chemistry', 'battery.charge', 'run.ends'],
  page: {
    title: 'An alternator on a battery with nothing to limit it',
    why: 'A lithium battery takes all an alternator has, for hours, at a speed at which it hardly cools itself: it burns out. If the battery’s protection cuts off meanwhile, the surge takes the diodes and the van’s electronics along. And an alternator that the vehicle manages lowers its voltage as soon as its own battery is full, so the one behind a relay never is.',
    limit: `Between an alternator and a lithium battery stands a charger that limits the current; with a managed (\`smart\`) alternator also before a second battery of any kind (common practice, no source). ${twoSystems} Where a case has the alternator on, its switches stand as it says.`,
    mend: 'Fit a battery-to-battery charger between the starter battery and this one, sized to what the alternator can spare.',
    see: ['charge-current-over-battery'],
    wrong: [
      driven('lithium-iron-phosphate, 12.8 V, 100 Ah', '14.2 V, 90 A, fixed # finds: alternator-without-limit "A1"'),
      split('14.2 V, 90 A, smart # finds: alternator-without-limit "smart"'),
      { spec: mixed(mark(isolated)) },
      { spec: mixed(`${mark(linkedByHand.spec)}case road A1 on\n`) },
    ],
    right: [
      driven('agm, 12 V, 100 Ah'),
      split('14.2 V, 90 A, fixed'),
      linkedByHand,
      { spec: `${linkedByHand.spec}case road A1 on, K1 off\n` },
    ],
  },
  forKind: ({ word }) => word === 'alternator',
  ofPart: (alternator) => (context) => unlimited(alternator, context),
};

function unlimited(alternator: Part, { model, answers: { network, miswirings } }: RuleContext): Reported[] {
  const plus = alternator.terminals.find(({ spec }) => spec.polarity === '+');
  if (plus === undefined || miswirings.isUpset(plus)) return [];
  const firm = batteriesIn(reach(plus, network, isFirm));
  const anyhow = batteriesChargedBy(alternator, plus, network, model);
  const output = alternator.facts.number('current') ?? 0;
  const lithium = anyhow.find(({ facts }) => facts.word('chemistry')?.startsWith('lithium'));
  if (lithium !== undefined) {
    const most = lithium.facts.number('charge');
    return [
      {
        ...(most !== undefined && output > most ? { severity: 'error' as const } : {}),
        message: `${alternator.name} charges ${lithium.name}, a lithium battery, with nothing between that limits the current, so it gives all its ${amps(output)}${most !== undefined && output > most ? ` (${lithium.name} may take ${amps(most)})` : ''} until it burns out: fit a battery-to-battery charger between.`,
        place: alternator.namePlace,
        subject: alternator.name,
        figures: { alternatorAmps: output, ...(most === undefined ? {} : { chargeAmps: most }) },
        related: [{ message: `${lithium.name} takes all it can get`, place: lithium.facts.place('chemistry') }],
      },
    ];
  }
  if (alternator.facts.word('regulation') !== 'smart') return [];
  const second = anyhow.find((battery) => !firm.includes(battery));
  const [own] = firm;
  if (own === undefined || second === undefined) return [];
  return [
    {
      severity: 'advice',
      message: `${alternator.name} is managed by the vehicle and lowers its voltage once ${own.name} is full, so ${second.name} is never charged fully through a relay or isolator: fit a battery-to-battery charger for it.`,
      place: alternator.facts.place('regulation'),
      subject: alternator.name,
      related: [{ message: `${second.name} is the second battery`, place: second.namePlace }],
    },
  ];
}

/** The two batteries are of different kinds as well. */
function mixed(spec: string): string {
  return spec.replace(/(battery B2 .*)/, '$1 # finds: batteries-mixed "lithium-iron-phosphate"');
}
