import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('use-missing', 'error', {
  title: 'A used file that is not there',
  why: 'Whatever it describes is missing, so what takes from it is not checked.',
  mend: 'Correct the path; it counts from the file that uses it.',
  see: ['circle-of-use', 'used-file-has-problems'],
  wrong: [lampSpec({}, 'use "none.amps" # finds: use-missing "\\"none.amps\\""')],
  right: [{ ...lampSpec({}, 'use "shelf.amps"'), files: { 'shelf.amps': 'stock thin cable 1.5 mm²\n' } }],
});
