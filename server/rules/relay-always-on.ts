/** A relay whose coil is never without supply. */
import { plainNumber } from '../../grammar/units.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import { lampSpec } from './language.ts';
import { reach } from './reach.ts';
import type { Reported, Rule } from './rule.ts';

const switched = [
  'relay K1 coil 12 V 150 mA, contact 30 A',
  'run W4 1.5 mm² red, 1 m, F1:out to K1:30',
  'run W5 1.5 mm² red, 1 m, K1:87 to LAMP:+',
  'run W7 1.5 mm² black, 1 m, K1:85 to B1:-',
];
const bare = { out: 'busbar POS 50 A\nrun W2 1.5 mm² red, 0.2 m, F1:out to POS' };
const [, ...others] = switched;

export const rule: Rule = {
  slug: 'relay-always-on',
  severity: 'advice',
  group: 'network',
  reads: ['relay.coil', 'relay.opens-below', 'run.ends'],
  page: {
    title: 'A relay that is always on',
    why: 'Its coil draws from the battery day and night, and it never opens: it does nothing but wear the battery down. It was meant to hang on a switch, or on what shows that the engine runs.',
    limit:
      'A coil has something in its way that lets it go: a switch or another relay; isolators and breakers, which are seldom opened, do not count (common practice, no source). A cut-off that says `opens below` is meant to be on and not told of.',
    mend: 'Feed the coil through a switch, or from what is live only when the relay shall be on.',
    see: ['coil-behind-own-contact', 'coil-voltage', 'load-below-lowest-voltage', 'part-never-used'],
    wrong: [
      lampSpec(
        bare,
        'relay K1 coil 12 V 150 mA, contact 30 A # finds: relay-always-on "coil 12 V 150 mA"',
        ...others,
        'run W6 1.5 mm² red, 1 m, POS to K1:86',
      ),
    ],
    right: [
      lampSpec(
        bare,
        'switch S1 1 pole, 10 A dc, 24 V',
        ...switched,
        'run W6 1.5 mm² red, 1 m, POS to S1:1',
        'run W8 1.5 mm² red, 1 m, S1:2 to K1:86',
      ),
      lampSpec(
        bare,
        'relay K1 coil 12 V 150 mA, contact 30 A, opens below 11.2 V',
        ...others,
        'run W6 1.5 mm² red, 1 m, POS to K1:86',
      ),
    ],
  },
  forKind: ({ word }) => word === 'relay',
  ofPart(part) {
    const { behaviour } = part.kind;
    if (behaviour.is !== 'coil' || part.facts.says('opens-below')) return undefined;
    const end = (name: string) => part.terminals.find(({ spec }) => spec.name === name);
    const [plus, minus] = [end(behaviour.from), end(behaviour.to)];
    return plus === undefined || minus === undefined
      ? undefined
      : ({ answers: { network } }) => alwaysOn(part, plus, minus, network);
  },
};

function alwaysOn(part: Part, plus: Terminal, minus: Terminal, network: Network): Reported[] {
  const above = [...reach(plus, network, staysClosed)];
  const battery = above.find(({ part: { kind }, spec }) => kind.word === 'battery' && spec.polarity === '+')?.part;
  if (battery === undefined || !hasMinus(reach(minus, network, staysClosed))) return [];
  const current = part.facts.number('coil', 'current');
  return [
    {
      message: `Nothing ever takes the supply from the coil of ${part.name}, so it is always on${current === undefined ? '' : ` and takes ${plainNumber(current * 1000, 0)} mA, ${plainNumber(current * 24, 1)} Ah a day, from ${battery.name}`}: feed it through a switch, or from what is live only when it shall be on.`,
      place: part.facts.place('coil'),
      subject: part.name,
      ...(current === undefined ? {} : { figures: { amps: current, ampHoursADay: current * 24 } }),
      related: [{ message: `${battery.name} feeds it`, place: battery.namePlace }],
    },
  ];
}

function hasMinus(terminals: ReadonlySet<Terminal>): boolean {
  return [...terminals].some(({ part, spec }) => part.kind.word === 'battery' && spec.polarity === '-');
}

const seldomOpened: ReadonlySet<Part['kind']['word']> = new Set(['isolator', 'breaker']);

function staysClosed(edge: Edge): boolean {
  if (edge.is !== 'contact') return true;
  return edge.contact.operated === 'fixed' || seldomOpened.has(edge.part.kind.word);
}
