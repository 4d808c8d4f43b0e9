import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('reserved-name', 'error', {
  title: 'A word of the notation as a name',
  why: 'A part called “all” or “on” could not be told from the word.',
  mend: 'Choose another name, such as the word with a number behind it.',
  see: ['bad-name', 'name-twice'],
  wrong: [lampSpec({}, 'splice spare # finds: reserved-name "spare"')],
  right: [lampSpec({}, 'splice SPARE-1')],
});
