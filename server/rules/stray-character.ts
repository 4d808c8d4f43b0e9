import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('stray-character', 'error', {
  title: 'A character that no one meant to write',
  why: 'Text from a web page or a chat brings characters along that cannot be seen, or the wide signs of another keyboard, and another program need not read them as this one does.',
  mend: 'Take out what cannot be seen, and write a plain comma, colon or digit for its wide form. The fix does both.',
  see: ['missing-separator', 'unknown-clause'],
  wrong: [lampSpec({ fuse: 'fuse F1 5 A， blade, 32 V # finds: stray-character "，"' })],
  right: [lampSpec()],
});
