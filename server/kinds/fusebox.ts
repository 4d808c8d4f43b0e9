import { commonClausesWithContacts } from './common.ts';
import { clause, terminal } from './define.ts';
import { fuseRatings } from './fuse.ts';
import type { KindSpec, PartFacts } from './kind.ts';

function wayCount(facts: PartFacts): number {
  return Math.min(facts.number('ways') ?? 0, 60);
}

/** Rating of a way's fuse in ampere: the last statement that names the way; undefined when unsaid or blank. */
export function wayFuse(facts: PartFacts, way: number): number | undefined {
  let amps: number | undefined;
  for (const row of facts.each('way')) {
    const from = row.number('way', 'way');
    const to = row.number('way', 'last') ?? from;
    if (from !== undefined && to !== undefined && way >= from && way <= to) amps = row.number('way', 'rating');
  }
  return amps;
}

export const kind: KindSpec = {
  word: 'fusebox',
  category: 'kind',
  family: 'protection',
  title: 'fuse-board',
  withArticle: 'a fusebox',
  meaning: 'One feed shared out over several fused ways.',
  head: 'names',
  example: 'fusebox FB 6 ways, total 60 A, way 1 fuse 5 A',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'fusebox',
  clauses: [
    clause('ways', '{ways:number} (way|ways)', 'How many ways it has.', '6 ways', ['unknown-terminal', 'answers'], {
      required: true,
    }),
    clause(
      'way',
      '(way {way:number}|ways {way:number} to {last:number}) fuse {rating:current} [most {most:current}]',
      'The fuse in a way, or in several alike; and the largest the way takes.',
      'way 3 fuse 10 A',
      ['cable-too-small', 'fuse-below-load', 'fuse-odd-rating', 'fusebox-total', 'answers'],
      { repeatable: true, standardValues: fuseRatings },
    ),
    clause('most', 'most {most:current}', 'The largest fuse the way before it takes.', 'most 30 A', ['fusebox-total'], {
      repeatable: true,
    }),
    clause('total', 'total {current:current}', 'Greatest current of the whole board.', 'total 60 A', [
      'hover:fusebox',
      'fusebox-total',
    ]),
    clause(
      'breaks',
      'breaks {current:current}',
      'Breaking capacity of the fuses in its ways; that of blade fuses when unsaid.',
      'breaks 2 kA',
      ['hover:fusebox', 'answers', 'fuse-breaking-capacity'],
    ),
    clause(
      'spares',
      'spares {count:times} {rating:current}',
      'Spare fuses kept with it, of one rating.',
      'spares 2 x 10 A',
      ['spare-fuse-mismatch'],
      { repeatable: true },
    ),
    clause('negative', 'negative bar', 'It has a negative bar, terminal neg.', 'negative bar', [
      'unknown-terminal',
      'answers',
    ]),
    ...commonClausesWithContacts,
  ],
  terminals: (facts) => [
    terminal('in', 'feed of all ways'),
    ...Array.from({ length: wayCount(facts) }, (_, i) =>
      terminal(String(i + 1), `way ${i + 1}, behind its fuse`, { optional: true }),
    ),
    ...(facts.says('negative') ? [terminal('neg', 'negative bar', { polarity: '-', optional: true })] : []),
  ],
  contacts: (facts) =>
    Array.from({ length: wayCount(facts) }, (_, index) => {
      const amps = wayFuse(facts, index + 1);
      return {
        from: 'in',
        to: String(index + 1),
        pole: index + 1,
        operated: 'fixed' as const,
        protects: true,
        ...(amps === undefined ? {} : { deviceAmps: amps }),
      };
    }),
};
