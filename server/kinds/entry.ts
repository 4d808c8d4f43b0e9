import { commonClauses, glandSizes } from './common.ts';
import { clause, noContacts } from './define.ts';
import type { KindSpec } from './kind.ts';

export const kind: KindSpec = {
  word: 'entry',
  category: 'kind',
  family: 'enclosure',
  title: 'cable entry',
  withArticle: 'an entry',
  meaning: 'A way through an enclosure’s wall that several cables may share.',
  head: 'names',
  example: 'entry E1 in ROOF-BOX, gland M25, 2 holes',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'entry',
  clauses: [
    clause(
      'way',
      '(gland {size:thread}|grommet {size:length}|conduit {size:length})',
      'What it is, and its size.',
      'gland M25',
      ['hover:entry', 'gland-and-cable', 'gland-and-knockout'],
      { required: true, standardValues: glandSizes.map((s) => `gland ${s}`) },
    ),
    clause('holes', '{count:number} (hole|holes)', 'How many cables it takes.', '2 holes', [
      'hover:entry',
      'gland-and-cable',
    ]),
    clause(
      'clamps',
      'clamps {least:number|length} to {most:length}',
      'Outside diameters it clamps.',
      'clamps 4 to 8 mm',
      ['hover:entry', 'gland-and-cable'],
    ),
    clause('ip', '{code:ip}', 'Degree of protection, IP code of IEC 60529.', 'IP68', [
      'hover:entry',
      'gland-ip-below-box',
    ]),
    ...commonClauses,
  ],
  terminals: () => [],
  contacts: noContacts,
};
