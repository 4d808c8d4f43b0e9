import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('unknown-name', 'error', {
  title: 'A name that nothing has',
  why: 'The part, place or stock that is meant is not in the spec, so what depends on it is not checked.',
  mend: 'Correct the name, or write the statement that is missing.',
  see: ['unknown-terminal', 'use-missing', 'wrong-stock-kind'],
  wrong: [lampSpec({ load: 'load LAMP 12 W, at SHEDD # finds: unknown-name "SHEDD"' }, 'place SHED 20 °C')],
  right: [lampSpec({ load: 'load LAMP 12 W, at SHED' }, 'place SHED 20 °C')],
});
