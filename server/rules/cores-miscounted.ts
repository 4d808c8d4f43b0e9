import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('cores-miscounted', 'error', {
  title: 'More or fewer cores than the cable has',
  why: 'A core that is not written down is one that nobody checks.',
  mend: 'Write a line for every core; one that is not used says `spare`.',
  see: ['end-missing'],
  wrong: [
    lampSpec(
      {},
      'load FAN 12 W',
      'run W4 3 x 1.5 mm², 1 m # finds: cores-miscounted "3 x"',
      '    brown F1:out to FAN:+',
      '    blue FAN:- to B1:-',
    ),
  ],
  right: [
    lampSpec(
      {},
      'load FAN 12 W',
      'run W4 3 x 1.5 mm², 1 m',
      '    brown F1:out to FAN:+',
      '    blue FAN:- to B1:-',
      '    green/yellow spare',
    ),
  ],
});
