import { commonClausesWithContacts } from './common.ts';
import { clause, faceClause, pairTerminals, polePairs, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'breaker',
  alsoCalled: ['mcb', 'circuit-breaker'],
  category: 'kind',
  family: 'protection',
  title: 'circuit-breaker',
  withArticle: 'a breaker',
  meaning: 'An overcurrent protective device that opens and can be closed again; it may serve as a switch.',
  head: 'names',
  example: 'breaker CB1 40 A, 1 pole, 60 V dc, breaks 5 kA',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'breaker',
  clauses: [
    clause(
      'rating',
      '{rating:current}',
      'Rated current In.',
      '40 A',
      ['cable-too-small', 'fuse-below-load', 'switch-below-fuse'],
      {
        required: true,
        standardValues: [
          '5 A',
          '10 A',
          '15 A',
          '20 A',
          '30 A',
          '40 A',
          '50 A',
          '60 A',
          '80 A',
          '100 A',
          '150 A',
          '200 A',
        ],
      },
    ),
    clause(
      'poles',
      '{poles:number} (pole|poles)',
      'Number of poles.',
      '1 pole',
      ['terminal-unconnected', 'unknown-terminal'],
      { standardValues: ['1 pole', '2 poles', '3 poles', '4 poles'] },
    ),
    clause('voltage', '{voltage:voltage} [{sort=dc|ac}]', 'Rated d.c. voltage of one pole.', '60 V dc', [
      'hover:breaker',
      'breaker-not-dc',
    ]),
    clause('breaks', 'breaks {current:current}', 'Breaking capacity.', 'breaks 5 kA', [
      'hover:breaker',
      'answers',
      'fuse-breaking-capacity',
    ]),
    clause(
      'polarity',
      '{polarity=polarised|unpolarised}',
      'Whether it must be fed from its marked side.',
      'unpolarised',
      ['hover:breaker', 'breaker-reversed'],
    ),
    clause(
      'series-voltage',
      '{poles:number} in series {voltage:voltage}',
      'The maker’s voltage with poles in series.',
      '2 in series 120 V',
      ['hover:breaker', 'fuse-voltage'],
      { repeatable: true },
    ),
    clause('pairs', 'pairs {pairs:range+}', 'Which terminals are one pole’s, when not 1-2, 3-4, …', 'pairs 1-3 2-4', [
      'poles-crossed',
      'answers',
    ]),
    faceClause,
    ...commonClausesWithContacts,
  ],
  terminals: (facts) =>
    (facts.number('poles') ?? 1) > 1 || facts.says('pairs')
      ? pairTerminals(facts)
      : [terminal('in', 'side towards the source'), terminal('out', 'side towards the load')],
  contacts: (facts) => {
    const amps = facts.number('rating');
    const volts = facts.number('voltage');
    const single = (facts.number('poles') ?? 1) <= 1 && !facts.says('pairs');
    const pairs = single ? [['in', 'out'] as const] : polePairs(facts).map(([a, b]) => [String(a), String(b)] as const);
    return pairs.map(([from, to], index) => ({
      from,
      to,
      pole: index + 1,
      operated: 'hand' as const,
      protects: true,
      ...(amps === undefined ? {} : { deviceAmps: amps, ratedAmps: amps }),
      ...(volts === undefined ? {} : { ratedVolts: volts }),
    }));
  },
};
