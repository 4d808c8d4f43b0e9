import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('unknown-clause', 'error', {
  title: 'Words that say nothing here',
  why: 'What is not understood is not checked: a rating that is misread protects nobody.',
  mend: 'Write the clause as the reference shows it; the light bulb offers the nearest word.',
  see: ['misplaced-clause', 'unknown-statement', 'missing-separator'],
  wrong: [lampSpec({ load: 'load LAMP 12 W, esential # finds: unknown-clause "esential"' })],
  right: [lampSpec({ load: 'load LAMP 12 W, essential' })],
});
