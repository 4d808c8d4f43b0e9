import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('missing-separator', 'error', {
  title: 'No comma between two clauses',
  why: 'Without it one cannot tell where one clause ends and the next begins.',
  mend: 'Put a comma or a new line between them.',
  see: ['unknown-clause', 'decimal-comma', 'stray-character'],
  wrong: [lampSpec({ fuse: 'fuse F1 5 A blade, 32 V # finds: missing-separator "5 A blade"' })],
  right: [lampSpec()],
});
