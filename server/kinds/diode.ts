import { commonClauses } from './common.ts';
import { clause, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'diode',
  category: 'kind',
  family: 'joint',
  title: 'diode',
  withArticle: 'a diode',
  meaning: 'Lets current through one way only, and loses some voltage at it.',
  head: 'names',
  example: 'diode D1 70 A, loses 0.6 V',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'diode',
  clauses: [
    clause('rating', '{current:current}', 'Rated current.', '70 A', ['hover:diode', 'connector-below-fuse'], {
      required: true,
    }),
    clause('loses', 'loses {voltage:voltage}', 'Voltage lost across it; 0.7 V when unsaid.', 'loses 0.6 V', [
      'answers',
      'hover:diode',
    ]),
    clause(
      'outputs',
      '{count:number} (output|outputs)',
      'One output, or two parted ones (out and out2).',
      '2 outputs',
      ['unknown-terminal', 'terminal-unconnected'],
    ),
    ...commonClauses,
  ],
  terminals: (facts) => [
    terminal('in', 'where current goes in'),
    terminal('out', 'where current comes out'),
    ...((facts.number('outputs') ?? 1) > 1 ? [terminal('out2', 'second way out')] : []),
  ],
  contacts: (facts) => {
    const amps = facts.number('rating');
    const outs = (facts.number('outputs') ?? 1) > 1 ? ['out', 'out2'] : ['out'];
    return outs.map((to, index) => ({
      from: 'in',
      to,
      pole: index + 1,
      operated: 'diode' as const,
      protects: false,
      ...(amps === undefined ? {} : { ratedAmps: amps }),
    }));
  },
};
