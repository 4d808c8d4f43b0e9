import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('end-missing', 'error', {
  title: 'A run or core without its ends',
  why: 'A cable that goes nowhere cannot be checked.',
  mend: 'Say its two ends, such as `F1:out to LAMP:+`.',
  see: ['terminal-unconnected', 'cores-miscounted'],
  wrong: [lampSpec({}, 'run W4 1.5 mm² red, 1 m # finds: end-missing "red"')],
  right: [lampSpec({}, 'run W4 1.5 mm² red, 1.2 m, F1:out to LAMP:+')],
});
