/** A source whose plus is joined to its own minus by conductors alone. */
import type { Model } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
import { lampSpec } from './language.ts';
import { type MeantTerminal, meantTerminal } from './meant-terminal.ts';
import { anyCrossed } from './poles-crossed.ts';
import type { Reported, Rule } from './rule.ts';
import { names } from './words.ts';

const isolator = 'isolator Q1 2 poles, 16 A dc, 60 V';

export const rule: Rule = {
  slug: 'short-circuit',
  severity: 'error',
  group: 'network',
  reads: ['run.ends'],
  page: {
    title: 'A plus joined to its own minus',
    why: 'When every switch on the way is closed, nothing but cable lies between the two: a battery gives thousands of ampere, and a panel nothing to anybody else.',
    limit:
      'Live conductors of opposite polarity are never joined (common practice, no source). Switches, isolators, breakers and fuses are taken as closed; relays that change over, selectors and diodes as open.',
    mend: 'Take out the core or link that joins the two, or end it on the other polarity. While it is there, sizes, ratings and voltages beside it are not judged, and a case may have no answer, because no figure there means anything.',
    see: ['poles-crossed', 'polarity-reversed', 'case-not-bonded'],
    wrong: [
      lampSpec(
        { back: 'run W3 1.5 mm² black, 1.3 m, LAMP:+ to B1:- # finds: short-circuit "W3"' },
        'run W4 1.5 mm² black, 1 m, LAMP:- to B1:-',
      ),
      lampSpec(
        {
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to Q1:1',
          back: 'run W3 1.5 mm² black, 1.3 m, Q1:3 to B1:-',
        },
        isolator,
        'link Q1 2-4 # finds: short-circuit "2-4"',
        'run W4 1.5 mm² red, 1 m, Q1:2 to LAMP:+',
        'run W5 1.5 mm² black, 1 m, Q1:4 to LAMP:-',
      ),
    ],
    right: [
      lampSpec(
        {
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to Q1:1',
          back: 'run W3 1.5 mm² black, 1.3 m, Q1:3 to B1:-',
        },
        isolator,
        'run W4 1.5 mm² red, 1 m, Q1:2 to LAMP:+',
        'run W5 1.5 mm² black, 1 m, Q1:4 to LAMP:-',
      ),
    ],
  },
  *check({ model, answers: { network, miswirings } }) {
    for (const { source, by, through } of miswirings.shorts) {
      // Poles that are swapped are told as such.
      if (anyCrossed(through, model, network)) continue;
      const meant = meantTerminal(by, network);
      const { who, advice, place, subject } = culprit(by, model, meant);
      const others = through.filter((name) => name !== subject);
      const way = others.length === 0 ? '' : `, by way of ${names(others.map((name) => ({ name })))}`;
      yield {
        message: `${who} joins ${source.plus.id} to ${source.minus.id}${way}: a short-circuit as soon as every switch on the way is closed. ${advice}`,
        place,
        subject,
        figures: { source: source.part.name, ...(meant === undefined ? {} : { meant: meant.terminal.id }) },
        related: [{ message: `${source.part.name} is shorted`, place: source.part.namePlace }],
        fixes:
          meant === undefined
            ? []
            : [
                {
                  title: `End ${subject} on ${meant.terminal.id}`,
                  safe: false,
                  edits: [{ place: meant.place, newText: meant.terminal.id }],
                },
              ],
      };
    }
  },
};

function culprit(
  by: Edge,
  model: Model,
  meant: MeantTerminal | undefined,
): Pick<Reported, 'place' | 'subject'> & { readonly who: string; readonly advice: string } {
  if (by.is === 'bar') {
    const { part, from, to, place } = by.bar;
    return {
      who: `The link ${from.spec.name}-${to.spec.name} on ${part.name}`,
      advice: 'Take it out: a link joins terminals of one polarity.',
      place,
      subject: part.name,
    };
  }
  if (by.is === 'core')
    return {
      who: by.core.run.name,
      advice:
        meant === undefined
          ? 'Take it out, or end it on the other polarity.'
          : `End it on ${meant.terminal.id}, which nothing reaches, or take it out.`,
      place: by.core.run.namePlace,
      subject: by.core.run.name,
    };
  const part = by.is === 'contact' ? by.part : (model.parts.get(by.from.part.name) ?? by.from.part);
  return { who: part.name, advice: 'Move one of the cores on it.', place: part.namePlace, subject: part.name };
}
