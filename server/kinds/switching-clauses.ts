/** What isolators and switches have in common: poles, ratings of one pole, the maker's figures for linked poles. */
import type { ClauseSpec } from '../../grammar/vocabulary.ts';
import { dcCategories } from '../tables/utilisation-categories.ts';
import { commonClausesWithContacts } from './common.ts';
import { clause, faceClause, polePairs } from './define.ts';
import type { ContactSpec, PartFacts } from './kind.ts';

const ratings = [6, 10, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125, 150, 160, 200, 250, 300].map((a) => `${a} A`);

export const switchingClauses: readonly ClauseSpec[] = [
  clause(
    'poles',
    '{poles:number} (pole|poles)',
    'Number of poles.',
    '4 poles',
    ['unknown-terminal', 'terminal-unconnected', 'answers'],
    { required: true, standardValues: ['1 pole', '2 poles', '3 poles', '4 poles', '6 poles', '8 poles'] },
  ),
  clause(
    'rating',
    '{current:current} [{sort=dc|ac}]',
    'Rated d.c. current of one pole.',
    '25 A dc',
    ['switch-below-fuse', 'switch-below-load', 'switch-not-dc'],
    { required: true, standardValues: ratings },
  ),
  clause('voltage', '{voltage:voltage} [{sort=dc|ac}]', 'Rated d.c. voltage of one pole.', '150 V', [
    'hover:isolator',
    'switch-not-dc',
    'switch-voltage',
  ]),
  clause(
    'category',
    'category {category:word}',
    'Utilisation category of IEC 60947-3: what it may open under load.',
    'category DC-PV2',
    ['hover:isolator', 'switch-category', 'switch-not-dc'],
    { standardValues: [...dcCategories.keys()] },
  ),
  clause(
    'parallel',
    '{poles:number} in parallel {current:current}',
    'The maker’s current with poles linked in parallel.',
    '2 in parallel 40 A',
    ['switch-below-fuse', 'switch-below-load', 'linked-rating-unstated'],
    { repeatable: true },
  ),
  clause(
    'series',
    '{poles:number} in series {voltage:voltage}',
    'The maker’s voltage with poles in series.',
    '2 in series 600 V',
    ['hover:isolator', 'series-rating-unstated', 'switch-voltage'],
    { repeatable: true },
  ),
  clause('pairs', 'pairs {pairs:range+}', 'Which terminals are one pole’s, when not 1-2, 3-4, …', 'pairs 1-5 2-6', [
    'poles-crossed',
    'answers',
  ]),
  faceClause,
  ...commonClausesWithContacts,
];

export function switchContacts(facts: PartFacts): readonly ContactSpec[] {
  const amps = facts.number('rating');
  const volts = facts.number('voltage');
  return polePairs(facts).map(([from, to], index) => ({
    from: String(from),
    to: String(to),
    pole: index + 1,
    operated: 'hand' as const,
    protects: false,
    ...(amps === undefined ? {} : { ratedAmps: amps }),
    ...(volts === undefined ? {} : { ratedVolts: volts }),
  }));
}
