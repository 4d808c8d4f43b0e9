/** What any part may say, tried on every kind. */
import { commonClauses, commonClausesWithContacts } from '../../../server/kinds/common.ts';
import { kindOf } from '../../../server/kinds/vocabulary.ts';
import type { Scene, Use } from '../effect.ts';

export function commonUses({ word, name, base }: Scene): Use[] {
  const kind = kindOf(word);
  if (kind === undefined || !commonClauses.every((clause) => kind.clauses.includes(clause))) return [];
  const electric = !['enclosure', 'material', 'limits'].includes(kind.family);
  const stated = Object.values(base).join(', ');
  const required = kind.clauses.some((clause) => clause.required === true || clause.oneOf !== undefined);
  return [
    {
      clause: 'stock',
      first: '= SHELF',
      instead: '',
      without: Object.keys(base),
      more: `stock SHELF ${word} ${stated === '' ? '' : `${stated}, `}price 5 EUR`,
      hoverOf: 'SHELF',
      shows: [
        'hover',
        ...(required ? ['missing-required-clause'] : []),
        ...(word === 'fuse' || word === 'load' ? ['answers'] : []),
      ],
    },
    {
      clause: 'in',
      first: 'in BOX',
      instead: '',
      hoverOf: 'BOX',
      shows: ['hover', ...(electric ? ['entry-unstated'] : [])],
    },
    {
      clause: 'at',
      first: 'at OVEN',
      instead: '',
      hoverOf: 'OVEN',
      shows: ['hover', ...(word === 'entry' ? [] : ['answers', 'cable-too-small'])],
    },
    {
      clause: 'terminals',
      first: 'terminals 0.1 to 0.2 mm²',
      instead: '',
      ...(electric ? {} : { hoverOf: name }),
      shows: ['hover', ...(electric ? ['terminal-too-small-for-cable'] : [])],
    },
    {
      clause: 'stud',
      first: 'stud M24',
      instead: '',
      ...(electric ? {} : { hoverOf: name }),
      shows: ['hover', ...(electric ? ['stud-mismatch'] : [])],
    },
    ...(commonClausesWithContacts.every((clause) => kind.clauses.includes(clause))
      ? [{ clause: 'contacts', first: 'contacts 50 mΩ', instead: '', shows: ['answers', 'hover'] }]
      : []),
  ];
}
