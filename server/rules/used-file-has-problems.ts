import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('used-file-has-problems', 'error', {
  title: 'A used file that cannot be read whole',
  why: 'This spec rests on what that file says, and part of it is not understood: a cable taken from it may have no size.',
  mend: 'Open the used file and mend what is found there.',
  see: ['use-missing', 'second-system'],
  wrong: [
    {
      ...lampSpec({}, 'use "shelf.amps" # finds: used-file-has-problems "\\"shelf.amps\\""'),
      files: { 'shelf.amps': 'stock thin cable 1,5 mm² # finds: decimal-comma "1,5 mm²"\n' },
    },
  ],
  right: [{ ...lampSpec({}, 'use "shelf.amps"'), files: { 'shelf.amps': 'stock thin cable 1.5 mm²\n' } }],
});
