import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('clause-twice', 'error', {
  title: 'The same thing said twice',
  why: 'Only one of the two can be true, and the tool will not choose.',
  mend: 'Keep the one that is right.',
  see: ['name-twice'],
  wrong: [lampSpec({ fuse: 'fuse F1 5 A, blade, 32 V, 10 A # finds: clause-twice "10 A"' })],
  right: [lampSpec()],
});
