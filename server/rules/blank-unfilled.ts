/** A size or rating that is still to be chosen. */
import { capital } from '../../grammar/phrases.ts';
import type { ClauseNode } from '../../grammar/shaped.ts';
import { isBlankSlot } from '../model/facts.ts';
import type { Facts, Origin, Place } from '../model/model.ts';
import { placeIn } from '../model/place.ts';
import { lampSpec, notationsOwn } from './language.ts';
import type { Rule } from './rule.ts';

export const rule: Rule = {
  slug: 'blank-unfilled',
  severity: 'advice',
  group: 'spec',
  reads: [],
  page: {
    title: 'A blank that is still to be filled',
    why: 'What depends on a blank is not checked until it is filled: a spec with blanks is sound, and not yet a spec to build by.',
    limit: notationsOwn,
    mend: 'Write the value that is offered, or one of your own.',
    see: ['length-missing', 'expect-not-met'],
    wrong: [
      lampSpec({ fuse: 'fuse F1 ? A, blade, 32 V # finds: blank-unfilled "? A"' }),
      lampSpec({ out: 'run W2 ? mm² red, 1.2 m, F1:out to LAMP:+ # finds: blank-unfilled "? mm²"' }),
    ],
    right: [lampSpec()],
  },
  *check({ model, answers }) {
    if (!model.files.some(({ statements }) => statements.some(({ node }) => node.text.includes('?')))) return;
    const told = new Set<string>();
    const key = ({ uri, span }: Place) => `${uri} ${span.start}`;
    const chosen = new Map(answers.chosen.map((one) => [key(one.place), one]));
    const named: readonly { readonly name: string; readonly facts: Facts }[] = [
      ...model.parts.values(),
      ...model.runs.values(),
      ...model.stocks.values(),
    ];
    for (const { name: own, facts } of named) {
      for (const { clause, origin, fromStock } of facts.facts) {
        // A length is measured, not chosen, and told of by itself.
        if (clause.spec.id === 'length') continue;
        for (const value of clause.values) {
          const place = placeIn(origin, value.span);
          if (
            !isBlankSlot(value) ||
            !value.atom.text.startsWith('?') ||
            told.has(key(place)) ||
            fromStock !== undefined
          )
            continue;
          told.add(key(place));
          const name = `${wayOf(clause, origin)}${own}`;
          const choice = chosen.get(key(place));
          yield {
            message:
              choice === undefined
                ? `${name} has a blank that nothing here decides: say what it is.`
                : `${name} has a blank: ${choice.text} would do, ${choice.why}.`,
            place,
            subject: own,
            ...(choice === undefined ? {} : { figures: { choice: choice.text } }),
          };
        }
      }
    }
  },
};

/** `Way 3 of ` where a clause says it of one way of a board, `Ways 2 to 4 of ` where of several. */
function wayOf({ spec, span }: ClauseNode, { statement }: Origin): string {
  if (spec.id !== 'way') return '';
  const ways = statement.node.text.slice(span.start, span.end).match(/^ways?\s+\d+(?:\s+to\s+\d+)?/u)?.[0];
  return ways === undefined ? '' : `${capital(ways.replace(/\s+/gu, ' '))} of `;
}
