import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('missing-unit', 'error', {
  title: 'A number without its unit',
  why: 'Five ampere or five volt: the tool will not guess what a number means.',
  mend: 'Write the unit behind the number; the light bulb offers what fits.',
  see: ['wrong-unit', 'unit-spelling', 'missing-required-clause'],
  wrong: [lampSpec({ fuse: 'fuse F1 5, blade, 32 V # finds: missing-unit "5"' })],
  right: [lampSpec()],
});
