import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('hash-gauge', 'error', {
  title: 'A gauge written with #',
  why: 'The sign # begins a comment, so everything behind it on the line goes unread.',
  mend: 'Write the gauge with its unit behind it, as in `10 AWG`.',
  see: ['unit-spelling'],
  wrong: [lampSpec({ out: 'run W2 #14 red, 4 ft, F1:out to LAMP:+ # finds: hash-gauge "#14"' })],
  right: [lampSpec({ out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+' })],
});
