/** What must hold, and the findings that are accepted: both belong to the spec's own file. */
import type { Builder } from './builder.ts';
import type { Allowance, Expectation } from './model.ts';
import { statementsOf } from './statements.ts';
import { factsOf } from './stock.ts';

export function buildExpectations(builder: Builder): Expectation[] {
  return statementsOf(builder, 'expect', true).map((origin) => ({ origin, facts: factsOf(builder, origin) }));
}

export function buildAllowances(builder: Builder): Allowance[] {
  return statementsOf(builder, 'allow', true).flatMap((origin): Allowance[] => {
    const facts = factsOf(builder, origin);
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
