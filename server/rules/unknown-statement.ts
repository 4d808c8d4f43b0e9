import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('unknown-statement', 'error', {
  title: 'A word that begins no statement',
  why: 'Nothing of this statement can be read, so nothing of it is checked.',
  mend: 'Begin the line with a statement or kind word; the light bulb offers the nearest.',
  see: ['unknown-clause', 'indented-statement'],
  wrong: [lampSpec({}, 'lood BELL 3 W # finds: unknown-statement "lood"')],
  right: [lampSpec()],
});
