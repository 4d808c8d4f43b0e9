/** What splices, busbars and terminal blocks have in common: one node with studs or clamps. */
import type { ClauseSpec } from '../../grammar/vocabulary.ts';
import { commonClauses } from './common.ts';
import { clause, terminal } from './define.ts';
import type { PartFacts, TerminalSpec } from './kind.ts';

export const jointClauses: readonly ClauseSpec[] = [
  clause('rating', '{current:current}', 'Rated current.', '150 A', ['hover:busbar', 'connector-below-fuse'], {
    standardValues: ['50 A', '100 A', '150 A', '250 A', '300 A'],
  }),
  clause('studs', '{count:number} (stud|studs)', 'How many studs or clamps it has.', '6 studs', [
    'unknown-terminal',
    'hover:busbar',
  ]),
  ...commonClauses,
];

/** The part itself is its node; studs may be numbered to say where a core sits. */
export function jointTerminals(facts: PartFacts): readonly TerminalSpec[] {
  const studs = Math.min(facts.number('studs') ?? 0, 60);
  return [
    terminal('', 'its one node', { optional: true }),
    ...Array.from({ length: studs }, (_, i) =>
      terminal(String(i + 1), `stud ${i + 1} of the same node`, { optional: true }),
    ),
  ];
}
