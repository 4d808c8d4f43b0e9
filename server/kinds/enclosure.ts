import { commonClauses } from './common.ts';
import { clause, noContacts } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'enclosure',
  alsoCalled: ['box', 'housing', 'junction-box'],
  category: 'kind',
  family: 'enclosure',
  title: 'enclosure',
  withArticle: 'an enclosure',
  meaning: 'A box with walls. Every cable that passes a wall does so through a gland, a grommet or a conduit.',
  head: 'names',
  example: 'enclosure ROOF-BOX plastic, IP65, outdoors, knockouts 4 x M20, blanks 0',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'enclosure',
  clauses: [
    clause('material', '{material=plastic|metal|wood}', 'What its walls are.', 'plastic', [
      'chafe-without-grommet',
      'hover:enclosure',
    ]),
    clause('ip', '{code:ip}', 'Degree of protection, IP code of IEC 60529.', 'IP65', [
      'hover:enclosure',
      'box-ip-for-place',
    ]),
    clause('exposure', '{exposure=indoors|outdoors}', 'Where it stands.', 'outdoors', [
      'hover:enclosure',
      'box-ip-for-place',
    ]),
    clause(
      'knockouts',
      'knockouts {count:times} {size:thread}',
      'How many ready holes, of which thread.',
      'knockouts 4 x M20',
      ['hover:enclosure', 'more-entries-than-knockouts', 'gland-and-knockout', 'knockout-left-open'],
      { repeatable: true },
    ),
    clause('blanks', 'blanks {count:number}', 'How many holes are closed by blanks.', 'blanks 1', [
      'hover:enclosure',
      'knockout-left-open',
    ]),
    ...commonClauses,
  ],
  terminals: () => [],
  contacts: noContacts,
};
