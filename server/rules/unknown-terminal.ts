import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('unknown-terminal', 'error', {
  title: 'A terminal that the part does not have',
  why: 'The core would end on nothing.',
  mend: 'Choose one of the terminals that the part has.',
  see: ['unknown-name', 'unknown-position', 'terminal-unconnected'],
  wrong: [lampSpec({ out: 'run W2 1.5 mm² red, 1.2 m, F1:output to LAMP:+ # finds: unknown-terminal "output"' })],
  right: [lampSpec()],
});
