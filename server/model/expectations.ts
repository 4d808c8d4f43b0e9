/** What must hold, and the findings that are accepted: both belong to the spec's own file. */
import type { Builder } from './builder.ts';
import { FactSet } from './facts.ts';
import type { Allowance, Expectation } from './model.ts';
import { statementsOf } from './statements.ts';
import { ownFacts } from './stock.ts';

export function buildExpectations(builder: Builder): Expectation[] {
  return [...statementsOf(builder.read.files.slice(0, 1), 'expect')].map((origin) => ({
    origin,
    facts: new FactSet('', origin, ownFacts(origin)),
  }));
}

export function buildAllowances(builder: Builder): Allowance[] {
  return [...statementsOf(builder.read.files.slice(0, 1), 'allow')].flatMap((origin): Allowance[] => {
    const facts = new FactSet('', origin, ownFacts(origin));
    const slug = facts.word('finding', 'slug');
    if (slug === undefined) return [];
    return [
      {
        origin,
        slug,
        slugPlace: facts.place('finding', 'slug'),
        subject: facts.word('finding', 'subject'),
        reason: facts.word('reason'),
      },
    ];
  });
}
