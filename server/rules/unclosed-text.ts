import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('unclosed-text', 'error', {
  title: 'A text without its closing quote',
  why: 'The rest of the line is read as part of the text, so a rating that stands there is not checked.',
  mend: 'Put `"` behind the last word of the text.',
  see: ['missing-separator'],
  wrong: [lampSpec({ load: 'load LAMP 12 W, reference "RL-12\n# finds above: unclosed-text "\\"RL-12"' })],
  right: [lampSpec({ load: 'load LAMP 12 W, reference "RL-12"' })],
});
