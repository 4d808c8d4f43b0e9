import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('missing-name', 'error', {
  title: 'A part or run without a name',
  why: 'Without a name nothing can be connected to it, and no label can be printed.',
  mend: 'Give it a name behind its first word.',
  see: ['bad-name'],
  wrong: [lampSpec({}, 'load 5 W # finds: missing-name "load"')],
  right: [lampSpec()],
});
