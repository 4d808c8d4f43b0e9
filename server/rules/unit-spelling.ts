import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('unit-spelling', 'error', {
  title: 'A unit written another way',
  why: 'Units are written as the standards write them, so that everybody reads the same.',
  mend: 'Take the spelling that the light bulb offers.',
  see: ['missing-unit', 'wrong-unit', 'hash-gauge'],
  wrong: [lampSpec({ out: 'run W2 1.5 mm² red, 1.2 metres, F1:out to LAMP:+ # finds: unit-spelling "metres"' })],
  right: [lampSpec()],
});
