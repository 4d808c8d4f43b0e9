import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('name-twice', 'error', {
  title: 'A name given twice',
  why: 'Two parts with one name cannot be told apart, on paper or on the cable.',
  mend: 'Give one of them another name.',
  see: ['reserved-name', 'bad-name', 'clause-twice'],
  wrong: [lampSpec({}, 'load LAMP 5 W # finds: name-twice "LAMP"')],
  right: [lampSpec()],
});
