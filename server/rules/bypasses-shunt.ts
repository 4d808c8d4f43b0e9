/** Something on the battery’s own side of its shunt, so that the meter does not see it. */
import { endsAt } from '../answers/joining-paths.ts';
import type { Core, Part, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import { partsJoinedTo } from './joined.ts';
import { lampSpec } from './language.ts';
import { doubleBonds } from './negative-bonded-twice.ts';
import { reach } from './reach.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { names } from './words.ts';

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
    mend: 'Move this conductor to the other side of the shunt, where all the others are; where the returns come by the body, move its bond.',
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
  const passes = (edge: Edge) =>
    edge.is === 'core' ? !spare.has(edge.core) : edge.is !== 'contact' || edge.part !== shunt;
  const without = reach(own, network, passes);
  const near = reach(own, network, passes, isBody);
  // Joined by another way too: then the whole shunt is bridged, and what bridges it cannot be told from the rest.
  const battery = [...without].find((one) => one.part.kind.word === 'battery');
  const plus = battery?.part.terminals.find(({ spec }) => spec.polarity === '+');
  if (battery === undefined || plus === undefined) return [];
  const turned = turnedRound(shunt, own, without, context);
  if (turned !== undefined) return [turned];
  const pole = battery.spec.polarity;
  const unmetered = [...without].flatMap((terminal) => {
    const found = terminal.spec.polarity === pole ? unseen(terminal) : undefined;
    // What is not joined to the battery’s other pole has another battery’s current.
    return found === undefined || !partsJoinedTo(plus, network).has(terminal.part) ? [] : [{ terminal, found }];
  });
  const byBody = unmetered.filter(({ terminal }) => !near.has(terminal)).map(({ found }) => found);
  const bond = bondIn(near, network);
  const byCable = unmetered.flatMap(({ terminal, found }): Reported[] => {
    if (bond !== undefined && !near.has(terminal)) return [];
    const core = (network.at.get(terminal.id) ?? []).find(({ is }) => is === 'core');
    const place =
      core?.is === 'core' ? (core.core.from === terminal ? core.core.fromPlace : core.core.toPlace) : undefined;
    return [
      {
        message: `${terminal.id} is joined to ${battery.id} past ${shunt.name}, so the meter does not see what ${found.part.name} ${found.verb}: join it to ${shunt.name}:load’s side.`,
        place: place ?? terminal.part.namePlace,
        subject: terminal.part.name,
        figures: { shunt: shunt.name },
        related: [{ message: 'The shunt', place: shunt.namePlace }],
      },
    ];
  });
  return bond === undefined || byBody.length === 0 ? byCable : [...byCable, bondPast(bond, byBody, battery, shunt)];
}

/** A shunt whose load side leads to a battery and to nothing that the meter is to see, while all of that stands on its other side. */
function turnedRound(
  shunt: Part,
  own: Terminal,
  onOwn: ReadonlySet<Terminal>,
  { answers: { network } }: RuleContext,
): Reported | undefined {
  const load = shunt.terminals.find(({ spec }) => spec.name === 'load');
  if (load === undefined) return undefined;
  const onLoad = reach(load, network, (edge) => edge.is !== 'contact' || edge.part !== shunt);
  const battery = [...onLoad].find(({ part }) => part.kind.word === 'battery');
  const isSeen = (terminal: Terminal) => unseen(terminal) !== undefined;
  if (battery === undefined || onLoad.has(own) || [...onLoad].some(isSeen) || ![...onOwn].some(isSeen))
    return undefined;
  const [mine, others] = [endsAt(own, network), endsAt(load, network)];
  return {
    message: `${shunt.name} is the wrong way round: ${battery.id} belongs on ${own.id}, and all that the meter is to see on ${load.id}: swap them.`,
    place: others[0]?.place ?? shunt.namePlace,
    subject: shunt.name,
    figures: { shunt: shunt.name },
    related: [{ message: 'The shunt', place: shunt.namePlace }],
    fixes: [
      {
        title: `Swap ${own.id} and ${load.id}`,
        safe: false,
        edits: [
          ...mine.map(({ place }) => ({ place, newText: load.id })),
          ...others.map(({ place }) => ({ place, newText: own.id })),
        ],
      },
    ],
  };
}

const isBody = ({ part }: Terminal): boolean => part.kind.word === 'chassis';

interface Bond {
  readonly core: Core;
  /** Where it is joined to the battery’s side. */
  readonly at: Terminal;
}

/** The conductor by which the body is joined to what is reached as far as the body. */
function bondIn(near: ReadonlySet<Terminal>, network: Network): Bond | undefined {
  for (const terminal of near) {
    if (!isBody(terminal)) continue;
    for (const edge of network.at.get(terminal.id) ?? []) {
      const other = edge.from === terminal ? edge.to : edge.from;
      if (edge.is === 'core' && near.has(other) && !isBody(other)) return { core: edge.core, at: other };
    }
  }
  return undefined;
}

/** All that comes back by the body goes past the shunt at one place: its bond. */
function bondPast({ core, at }: Bond, found: readonly Unseen[], battery: Terminal, shunt: Part): Reported {
  const verbs = [...new Set(found.map(({ verb }) => verb))];
  const verb = found.length === 1 ? verbs[0] : verbs.map((one) => one.replace(/s$/, '')).join(' or ');
  const parts = [...new Set(found.map(({ part }) => part))];
  return {
    message: `${core.run.name} joins the body to ${battery.id} past ${shunt.name}, so the meter does not see what ${names(parts)} ${verb} by the body: join it to ${shunt.name}:load’s side.`,
    place: (core.from === at ? core.fromPlace : core.toPlace) ?? core.run.namePlace,
    subject: core.run.name,
    figures: { shunt: shunt.name },
    related: [
      { message: 'The shunt', place: shunt.namePlace },
      ...parts
        .slice(0, 4)
        .map((part) => ({ message: `${part.name} has its current by the body`, place: part.namePlace })),
    ],
  };
}

interface Unseen {
  readonly part: Part;
  readonly verb: string;
}

/** What draws or charges at a terminal. */
function unseen({ part, spec }: Terminal): Unseen | undefined {
  const { behaviour } = part.kind;
  switch (behaviour.is) {
    case 'load':
    case 'socket':
    case 'inverter':
      return { part, verb: 'takes' };
    case 'alternator':
      return { part, verb: 'gives' };
    case 'converter':
      return spec.side === 'load' || spec.side === 'pv'
        ? undefined
        : { part, verb: behaviour.inputs.includes(spec.side ?? '') ? 'takes' : 'gives' };
    default:
      return undefined;
  }
}
