import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('misplaced-clause', 'error', {
  title: 'A clause of another kind',
  why: 'It says nothing of this part, so either the part or the clause is not the one meant.',
  mend: 'Move the clause to the part it belongs to, or take it out.',
  see: ['unknown-clause'],
  wrong: [lampSpec({ load: 'load LAMP 12 W, voc 23 V # finds: misplaced-clause "voc 23 V"' })],
  right: [lampSpec()],
});
