import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('circle-of-use', 'error', {
  title: 'Files that use each other',
  why: 'Each waits for the other, so neither can be read whole.',
  mend: 'Take one use out, or move what both need to a third file.',
  see: ['use-missing', 'circle-of-names'],
  wrong: [
    {
      ...lampSpec({}, 'use "shelf.amps" # finds: circle-of-use "\\"shelf.amps\\""'),
      files: { 'shelf.amps': 'use "spec.amps" # finds: circle-of-use "\\"spec.amps\\""\n' },
    },
  ],
  right: [{ ...lampSpec({}, 'use "shelf.amps"'), files: { 'shelf.amps': 'stock thin cable 1.5 mm²\n' } }],
});
