import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('wrong-unit', 'error', {
  title: 'A quantity of the wrong kind',
  why: 'A voltage where a current belongs is a slip of the pen that could choose the wrong fuse.',
  mend: 'Write the quantity that the clause asks for.',
  see: ['missing-unit', 'unit-spelling', 'impossible-value'],
  wrong: [lampSpec({ load: 'load LAMP 12 W, lowest 11 A # finds: wrong-unit "11 A"' })],
  right: [lampSpec({ load: 'load LAMP 12 W, lowest 11 V' })],
});
