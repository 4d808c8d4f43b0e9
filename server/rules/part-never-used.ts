/** A busbar, terminal block or the like that nothing is joined to. */
import type { Part } from '../model/model.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';

/** A splice is made where cables meet, and the body is there anyway: neither is left over. */
const notBought: ReadonlySet<string> = new Set(['splice', 'chassis']);

/** What wants its terminals joined is told of as `terminal-unconnected`, or left until an unfinished run has its ends. */
const mayStayEmpty = ({ terminals }: Part): boolean =>
  terminals.length > 0 && terminals.every(({ spec: { optional } }) => optional === true);

export const rule: Rule = {
  slug: 'part-never-used',
  severity: 'advice',
  group: 'network',
  restsOnAllNames: true,
  reads: ['run.ends', 'link.bar'],
  page: {
    title: 'A part that nothing is joined to',
    why: 'It is on the parts list and will be bought; or a cable that should end on it ends elsewhere by mistake.',
    limit:
      'Everything that is fitted serves a circuit (common practice, no source). Parts whose terminals must be joined are told of as `terminal-unconnected`.',
    mend: 'End a cable on it, or take it out.',
    see: ['terminal-unconnected', 'no-return', 'relay-always-on'],
    wrong: [lampSpec({}, 'busbar NEG 100 A # finds: part-never-used "NEG"')],
    right: [
      lampSpec(
        { back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to NEG' },
        'busbar NEG 100 A',
        'run W4 1.5 mm² black, 0.2 m, NEG to B1:-',
      ),
    ],
  },
  *check({ model }) {
    // A list of parts has no runs yet.
    if (!model.isLaid) return;
    const reached = new Set<Part | undefined>();
    for (const { cores } of model.runs.values())
      for (const { from, to } of cores) reached.add(from?.part).add(to?.part);
    for (const { from, to } of model.bars) reached.add(from.part).add(to.part);
    // Of several parts declared together the first is named by what is wrong with their statement.
    const troubled = new Set(model.problems.map(({ subject }) => model.parts.get(subject ?? '')?.origin.statement));
    for (const part of model.parts.values()) {
      if (notBought.has(part.kind.word) || !mayStayEmpty(part)) continue;
      if (reached.has(part) || troubled.has(part.origin.statement)) continue;
      yield {
        message: `Nothing is joined to ${part.name}: end a cable on it, or take it out.`,
        place: part.namePlace,
        subject: part.name,
      };
    }
  },
};
