import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('bad-name', 'error', {
  title: 'A name that cannot be one',
  why: 'Names have letters, digits, _ and -, so that they stand out from units and colours.',
  mend: 'Begin it with a letter, and write letters, digits, _ and - only, such as `left-right`.',
  see: ['reserved-name', 'missing-name', 'unclosed-text'],
  wrong: [lampSpec({}, 'splice left/right # finds: bad-name "left/right"')],
  right: [lampSpec({}, 'splice left-right')],
});
