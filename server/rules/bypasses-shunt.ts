/** Something on the battery’s own side of its shunt, so that the meter does not see it. */
import type { Part, Terminal } from '../model/model.ts';
import { lampSpec } from './language.ts';
import { doubleBonds } from './negative-bonded-twice.ts';
import { reach } from './reach.ts';
import type { Rule, RuleContext } from './rule.ts';

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
  *check(context) {
    const { model, answers } = context;
    // A second bond that goes past the shunt is told of as that.
    const isShunt = ({ kind }: Part) => kind.word === 'shunt';
    const any = [...model.parts.values()].some(isShunt);
    const spare = new Set(any ? doubleBonds(context).map((bond) => bond.spare) : []);
    for (const part of model.parts.values()) {
      if (!isShunt(part)) continue;
      const own = model.terminals.get(`${part.name}:battery`);
      if (own === undefined || miswired(own, context)) continue;
      const without = reach(own, answers.network, (edge) =>
        edge.is === 'core' ? !spare.has(edge.core) : edge.is !== 'contact' || edge.part !== part,
      );
      // Joined by another way too: then the whole shunt is bridged, and what bridges it cannot be told from the rest.
      const battery = [...without].find((one) => one.part.kind.word === 'battery');
      if (battery === undefined) continue;
      const pole = battery.spec.polarity;
      for (const terminal of without) {
        const found = terminal.spec.polarity === pole ? unseen(terminal) : undefined;
        if (found === undefined || !sameBattery(terminal.part, battery.part, context)) continue;
        const core = (answers.network.at.get(terminal.id) ?? []).find(({ is }) => is === 'core');
        const place =
          core?.is === 'core' ? (core.core.from === terminal ? core.core.fromPlace : core.core.toPlace) : undefined;
        yield {
          message: `${terminal.id} is joined to ${battery.id} past ${part.name}, so the meter does not see what ${found.name} ${found.verb}: join it to ${part.name}:load’s side.`,
          place: place ?? terminal.part.namePlace,
          subject: terminal.part.name,
          figures: { shunt: part.name },
          related: [{ message: 'The shunt', place: part.namePlace }],
        };
      }
    }
  },
};

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

/** Whether a part’s other pole is joined to the battery’s other pole: else its current is another battery’s. */
function sameBattery(part: Part, battery: Part, { answers: { network } }: RuleContext): boolean {
  const plus = battery.terminals.find(({ spec }) => spec.polarity === '+');
  return plus !== undefined && [...reach(plus, network, () => true)].some((one) => one.part === part);
}

function miswired(terminal: Terminal, { answers: { miswirings } }: RuleContext): boolean {
  return miswirings.isUpset(terminal);
}
