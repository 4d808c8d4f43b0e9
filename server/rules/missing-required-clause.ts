import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('missing-required-clause', 'error', {
  title: 'Something that must be said is missing',
  why: 'Without it nothing can be worked out for this part; a ? says that it is not decided yet.',
  mend: 'Say it, or write `?` with its unit, as in `? mm²`, while it is not decided.',
  see: ['missing-unit'],
  wrong: [
    lampSpec({ battery: 'battery B1 lead-acid, 12 V, internal 15 mΩ # finds: missing-required-clause "B1"' }),
    lampSpec({}, 'allow drop-over-limit on W2 # finds: missing-required-clause "drop-over-limit on W2"'),
  ],
  right: [lampSpec()],
});
