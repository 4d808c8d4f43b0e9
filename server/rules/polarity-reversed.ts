/** A part with its plus on the negative side and its minus on the positive. */

import type { Answers, PartPort } from '../answers/answers.ts';
import { endsAt } from '../answers/joining-paths.ts';
import type { Part, Place, Terminal } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import { lampSpec } from './language.ts';
import { onlyEmptyOn } from './meant-terminal.ts';
import { anyCrossed } from './poles-crossed.ts';
import type { Edit, Reported, Rule, RuleContext } from './rule.ts';
import { sunSpec } from './sun-examples.ts';
import { names } from './words.ts';

export const rule: Rule = {
  slug: 'polarity-reversed',
  severity: 'error',
  group: 'network',
  reads: ['run.ends', 'load.power'],
  page: {
    title: 'Plus and minus swapped',
    why: 'An inverter, controller or converter the wrong way round is destroyed at once, a panel or a second battery drives its current backwards into the others, and a pump runs backwards. A panel the wrong way round in a string gives nothing, and the string then lies too low to charge, or takes current from the others. What has both its cores on one pole is dead, and on the plus its return has no fuse of its own.',
    limit:
      'Terminals are joined to those of their own polarity (common practice, no source). Batteries are believed first, then outputs, then panel inputs. What is the wrong way round in every position of a selector or relay counts as well. Where all of several loads are against an output, it is the output. Of a part that nothing joins to another, nothing is said. In a string it is told by what the ends of the string are joined to. A core on a battery or a bar is on the wrong pole where all that it leads to, switches and relays closed, belongs to the other; the body and the cases bonded to it belong to the negative.',
    mend: 'Swap the two cores at the part, or move the one that is on the wrong pole. For a motor that is to run backwards, say so with an allow.',
    see: ['short-circuit', 'controller-sides-swapped'],
    wrong: [
      lampSpec({
        out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:- # finds: polarity-reversed "LAMP:-"',
        back: 'run W3 1.5 mm² black, 1.3 m, LAMP:+ to B1:-',
        load: 'load LAMP 12 Ω',
      }),
      lampSpec(
        {},
        'panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A',
        'controller U1 pwm, pv 25 V 10 A, output 10 A',
        'fuse F2 15 A, blade, 32 V',
        'run W4 4 mm² red, 3 m, P1:- to U1:pv+ # finds: polarity-reversed "P1:-"',
        'run W5 4 mm² black, 3 m, P1:+ to U1:pv-',
        'run W6 4 mm² red, 2 m, U1:bat+ to F2:in',
        'run W7 4 mm² red, 0.1 m, F2:out to B1:+',
        'run W8 4 mm² black, 2 m, U1:bat- to B1:-',
      ),
      lampSpec({ back: 'run W3 1.5 mm² blue, 1.3 m, LAMP:- to B1:+ # finds: polarity-reversed "B1:+"' }),
      sunSpec({
        panels: 'panel P1 and P2 100 W, voc 22.5 V, isc 5.9 A, vmp 18.6 V, imp 5.4 A, voc drift -0.30 %/°C',
        wiring:
          'run W1 4 mm² red, 3 m, P1:+ to Q1:1\nrun W2 4 mm² black, 1 m, P1:- to P2:- # finds: polarity-reversed "P2:-"\nrun W3 4 mm² black, 3 m, P2:+ to Q1:3',
      }),
    ],
    right: [lampSpec()],
  },
  *check(context) {
    const { model } = context;
    const { cases, network, miswirings } = context.answers;
    const told = new Set<Part>();
    for (const { port: unlike, against: like, through, string } of miswirings.reversed) {
      // Poles that are swapped are told as such.
      if (anyCrossed(through, model, network)) continue;
      // Red on its minus and black on its plus tell which of the two it is.
      const isOther = string === undefined && isSwapped(like, network) && !isSwapped(unlike, network);
      const [port, against] = isOther ? [like, unlike] : [unlike, like];
      const { part, plus, minus } = port;
      if (isOther && told.has(part)) continue;
      told.add(part);
      const [atPlus, atMinus] = [endsAt(plus, network), endsAt(minus, network)];
      // Where its own colours are right it is the other ends of its two cores that are swapped.
      const far = isOther || string !== undefined ? undefined : farEnds(atPlus, atMinus, network);
      const swap = far?.edits ?? [
        ...atPlus.map(({ place }) => ({ place, newText: minus.id })),
        ...atMinus.map(({ place }) => ({ place, newText: plus.id })),
      ];
      const other = against.part.name;
      const isOn = (one: Part) =>
        one === unlike.part ||
        (isSource(unlike.part) && one.terminals.some((terminal) => miswirings.isUpset(terminal)));
      const unanswered = cases.filter(({ unfed }) => unfed.some(isOn)).map(({ name }) => ({ name }));
      const until =
        unanswered.length === 0
          ? ''
          : ` Until then ${unanswered.length > 1 ? 'cases' : 'case'} ${names(unanswered)} ${unanswered.length > 1 ? 'have' : 'has'} no answer, so nothing is checked there.`;
      yield {
        message:
          string === undefined
            ? `${plus.id} is on ${other}’s negative side (${against.minus.id}) and ${minus.id} on its positive (${against.plus.id}): swap ${far === undefined ? 'them' : far.told}.${until}`
            : `${part.name} is the wrong way round in its string with ${names(string.filter((one) => one !== part))}, so it gives nothing and the string’s voltage is too low: swap ${plus.id} and ${minus.id} while no current flows.${until}`,
        place: far?.place ?? atMinus[0]?.place ?? atPlus[0]?.place ?? part.namePlace,
        subject: part.name,
        figures: { plus: plus.id, minus: minus.id, against: other },
        related: [
          ...[...new Set([part, minus.part])].map((one) => ({
            message: `${one.name} is the wrong way round`,
            place: one.namePlace,
          })),
          { message: `${other} tells which side is which`, place: against.part.namePlace },
        ],
        fixes:
          atPlus.length === 0 || atMinus.length === 0
            ? []
            : [
                {
                  title: `Swap ${far === undefined ? `${plus.id} and ${minus.id}` : far.told}`,
                  safe: false,
                  edits: swap,
                },
              ],
      };
    }
    // Of what is to be swapped as a whole no end is moved by itself: that would put both its leads on one pole.
    for (const one of miswirings.astray) if (!told.has(one.end.part)) yield onWrongPole(one, context);
  },
};

/** A core that ends on a pole which all that it leads to does not belong to. */
function onWrongPole(
  { core, end, sign, meant: likely, marked }: Answers['miswirings']['astray'][number],
  context: RuleContext,
): Reported {
  const place = core.from === end ? core.fromPlace : core.toPlace;
  const isBond = marked.every(({ part, spec }) => part.kind.word === 'chassis' || spec.name === 'case');
  const is = sign === '+' ? 'positive' : 'negative';
  const belongs = isBond ? 'body' : sign === '+' ? 'negative' : 'positive';
  const empty = isBond ? undefined : onlyEmptyOn(sign === '+' ? 'minus' : 'plus', context);
  const meant = (empty ?? likely)?.id;
  const leads = names(marked.slice(0, 2).map(({ id }) => ({ name: id })));
  const more = marked.length > 2 ? ` and ${marked.length - 2} more` : '';
  return {
    message: `${core.run.name} ends on ${end.id}, which is ${is}, but leads to ${leads}${more}, which ${marked.length > 1 ? 'belong' : 'belongs'} on the ${belongs}: move that end to ${meant === undefined ? `the ${belongs}` : `${meant}${empty === undefined ? '' : ', which nothing reaches'}`}.`,
    place: place ?? core.run.namePlace,
    subject: core.run.name,
    figures: { end: end.id, ...(meant === undefined ? {} : { meant }) },
    related: [{ message: `${end.part.name} is ${is} there`, place: end.part.namePlace }],
    fixes:
      place === undefined || meant === undefined
        ? []
        : [{ title: `Move it to ${meant}`, safe: false, edits: [{ place, newText: meant }] }],
  };
}

type Ends = ReturnType<typeof endsAt>;

/** The other ends of one red core on a plus and one black on the minus, where no red goes on as red there, nor black as black. */
function farEnds(
  atPlus: Ends,
  atMinus: Ends,
  network: Network,
): { readonly told: string; readonly place: Place; readonly edits: readonly Edit[] } | undefined {
  const [red, black] = [atPlus[0], atMinus[0]];
  if (red === undefined || black === undefined || atPlus.length > 1 || atMinus.length > 1) return undefined;
  if (red.core.colour !== 'red' || black.core.colour !== 'black') return undefined;
  const far = ({ core, place }: Ends[number]) =>
    place === core.fromPlace ? { end: core.to, place: core.toPlace } : { end: core.from, place: core.fromPlace };
  const [one, other] = [far(red), far(black)];
  if (one.end === undefined || other.end === undefined || one.place === undefined || other.place === undefined)
    return undefined;
  const goesOn = ({ core }: Ends[number], end: Terminal) =>
    endsAt(end, network).some((beside) => beside.core !== core && beside.core.colour === core.colour);
  const isOneCable = red.core.run === black.core.run;
  if (!isOneCable && (goesOn(red, one.end) || goesOn(black, other.end))) return undefined;
  return {
    told: `the ends of ${isOneCable ? '' : `${red.core.run.name} and `}${black.core.run.name} on ${one.end.id} and ${other.end.id}`,
    place: one.place,
    edits: [
      { place: one.place, newText: other.end.id },
      { place: other.place, newText: one.end.id },
    ],
  };
}

function isSwapped({ plus, minus }: PartPort, network: Network): boolean {
  const are = (terminal: Terminal, colour: string) => {
    const ends = endsAt(terminal, network);
    return ends.length > 0 && ends.every(({ core }) => core.colour === colour);
  };
  return are(plus, 'black') && are(minus, 'red');
}

function isSource({ kind: { behaviour } }: Part): boolean {
  return ['battery', 'alternator', 'converter', 'panel'].includes(behaviour.is);
}
