/** Something on the battery’s own side of its shunt, so that the meter does not see it. */
import type { Part, Terminal } from '../model/model.ts';
import { partsJoinedTo } from './joined.ts';
import { lampSpec } from './language.ts';
import { doubleBonds } from './negative-bonded-twice.ts';
import { reach } from './reach.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';

const shunt = 'shunt SH1 150 A, 50 mV';
const home = 'run W4 10 mm² black, 0.2 m, SH1:battery to B1:-';
const seen = 'run W3 1.5 mm² black, 1.3 m, LAMP:- to SH1:load';
const fan = ['load FAN 12 W', 'run W5 1.5 mm² red, 1.2 m, F1:out to FAN:+'];

export const rule: Rule = {
  slug: 'bypasses-shunt',
  severity: 'warning',
  group: 'battery',
  reads: ['run.ends', 'shunt.rating'],
  page: {
    title: 'A current that the shunt does not see',
    why: 'The battery monitor counts what passes its shunt. What goes past it empties the battery while the meter still shows it full.',
    limit:
      'Everything that a battery feeds, and everything that charges it, passes its shunt (common practice, no source).',
    mend: 'Move this conductor to the other side of the shunt, where all the others are.',
    see: ['negative-bonded-twice'],
    wrong: [
      lampSpec(
        { back: seen },
        shunt,
        home,
        ...fan,
        'run W6 1.5 mm² black, 1.3 m, FAN:- to B1:- # finds: bypasses-shunt "FAN:-"',
      ),
    ],
    right: [lampSpec({ back: seen }, shunt, home, ...fan, 'run W6 1.5 mm² black, 1.3 m, FAN:- to SH1:load')],
  },
  forKind: ({ word }) => word === 'shunt',
  ofPart(shunt) {
    const own = shunt.terminals.find(({ spec }) => spec.name === 'battery');
    return own === undefined ? undefined : (context) => pastIt(shunt, own, context);
  },
};

function pastIt(shunt: Part, own: Terminal, context: RuleContext): Reported[] {
  const { network, miswirings } = context.answers;
  if (miswirings.isUpset(own)) return [];
  // A second bond that goes past the shunt is told of as that.
  const spare = new Set(doubleBonds(context).map((bond) => bond.spare));
  const without = reach(own, network, (edge) =>
    edge.is === 'core' ? !spare.has(edge.core) : edge.is !== 'contact' || edge.part !== shunt,
  );
  // Joined by another way too: then the whole shunt is bridged, and what bridges it cannot be told from the rest.
  const battery = [...without].find((one) => one.part.kind.word === 'battery');
  const plus = battery?.part.terminals.find(({ spec }) => spec.polarity === '+');
  if (battery === undefined || plus === undefined) return [];
  const pole = battery.spec.polarity;
  return [...without].flatMap((terminal): Reported[] => {
    const found = terminal.spec.polarity === pole ? unseen(terminal) : undefined;
    // What is not joined to the battery’s other pole has another battery’s current.
    if (found === undefined || !partsJoinedTo(plus, network).has(terminal.part)) return [];
    const core = (network.at.get(terminal.id) ?? []).find(({ is }) => is === 'core');
    const place =
      core?.is === 'core' ? (core.core.from === terminal ? core.core.fromPlace : core.core.toPlace) : undefined;
    return [
      {
        message: `${terminal.id} is joined to ${battery.id} past ${shunt.name}, so the meter does not see what ${found.name} ${found.verb}: join it to ${shunt.name}:load’s side.`,
        place: place ?? terminal.part.namePlace,
        subject: terminal.part.name,
        figures: { shunt: shunt.name },
        related: [{ message: 'The shunt', place: shunt.namePlace }],
      },
    ];
  });
}

/** What draws or charges at a terminal. */
function unseen({ part, spec }: Terminal): { readonly name: string; readonly verb: string } | undefined {
  const { behaviour } = part.kind;
  switch (behaviour.is) {
    case 'load':
    case 'socket':
    case 'inverter':
      return { name: part.name, verb: 'takes' };
    case 'alternator':
      return { name: part.name, verb: 'gives' };
    case 'converter':
      return spec.side === 'load' || spec.side === 'pv'
        ? undefined
        : { name: part.name, verb: behaviour.inputs.includes(spec.side ?? '') ? 'takes' : 'gives' };
    default:
      return undefined;
  }
}
