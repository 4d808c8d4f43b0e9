import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('decimal-comma', 'error', {
  title: 'A comma among the digits',
  why: 'A comma parts clauses here; in a number it can be read two ways, and a thousandfold apart.',
  mend: 'Write the decimals behind a point, and nothing between thousands.',
  see: ['missing-separator'],
  wrong: [lampSpec({ out: 'run W2 2,5 mm² red, 1.2 m, F1:out to LAMP:+ # finds: decimal-comma "2,5 mm²"' })],
  right: [lampSpec({ out: 'run W2 2.5 mm² red, 1.2 m, F1:out to LAMP:+' })],
});
