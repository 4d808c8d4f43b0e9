import { fuseAmps } from '../tables/sizes.ts';
import { commonClausesWithContacts } from './common.ts';
import { clause, terminal } from './define.ts';
import type { KindSpec } from './kind.ts';

/** Ratings that fuses of any style come in; completion narrows them to the style that is said. */
export const fuseRatings = fuseAmps(undefined).map((a) => `${a} A`);
export const fuseStyles = 'blade|mini-blade|maxi-blade|bolt-in|strip|cartridge|glass|class-t|gpv';

export const kind: KindSpec = {
  word: 'fuse',
  alsoCalled: ['sicherung', 'fusible'],
  category: 'kind',
  family: 'protection',
  title: 'fuse',
  withArticle: 'a fuse',
  meaning: 'An overcurrent protective device that melts: the first thing to go, so that no cable does.',
  head: 'names',
  example: 'fuse F1 80 A, cartridge, 125 V, breaks 20 kA',
  behaviour: { is: 'none' },
  oneNode: false,
  symbol: 'fuse',
  clauses: [
    clause(
      'rating',
      '{rating:current}',
      'Rated current In.',
      '80 A',
      ['cable-too-small', 'fuse-below-load', 'switch-below-fuse'],
      { required: true, standardValues: fuseRatings },
    ),
    clause('style', `{style=${fuseStyles}}`, 'Body style.', 'blade', [
      'hover:fuse',
      'answers',
      'fuse-breaking-capacity',
    ]),
    clause(
      'voltage',
      '{voltage:voltage}',
      'Rated voltage, d.c.',
      '32 V',
      ['hover:fuse', 'fuse-voltage', 'ratings-unstated'],
      {
        standardValues: ['32 V', '58 V', '80 V', '125 V'],
      },
    ),
    clause(
      'breaks',
      'breaks {current:current}',
      'Breaking capacity: the greatest fault current it can interrupt.',
      'breaks 2 kA',
      ['hover:fuse', 'answers', 'fuse-breaking-capacity', 'ratings-unstated'],
    ),
    clause(
      'operates',
      'operates {share:ratio} in {least:time} to {most:time}',
      'A point of its time-current curve.',
      'operates 200 % in 0.15 s to 5 s',
      ['hover:fuse', 'answers'],
      { repeatable: true },
    ),
    clause('spares', 'spares {count:number}', 'How many spare fuse-links are kept.', 'spares 2', [
      'hover:fuse',
      'later: parts list',
    ]),
    ...commonClausesWithContacts,
  ],
  terminals: () => [terminal('in', 'side towards the source'), terminal('out', 'side towards the load')],
  contacts: (facts) => {
    const amps = facts.number('rating');
    const volts = facts.number('voltage');
    return [
      {
        from: 'in',
        to: 'out',
        pole: 1,
        operated: 'fixed',
        protects: true,
        ...(amps === undefined ? {} : { deviceAmps: amps }),
        ...(volts === undefined ? {} : { ratedVolts: volts }),
      },
    ];
  },
};
