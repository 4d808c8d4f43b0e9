import { lampSpec, languageRule } from './language.ts';

export const rule = languageRule('indented-statement', 'warning', {
  title: 'A statement that is indented',
  why: 'An indented line carries on the one above; a person reading it would take it for part of that.',
  mend: 'Move the line to the margin, or make it a clause of the statement above.',
  see: ['unknown-statement'],
  wrong: [lampSpec({ load: '  load LAMP 12 W # finds: indented-statement "load"' })],
  right: [lampSpec()],
});
