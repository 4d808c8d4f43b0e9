import { expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const messages = (end: string, more = '') =>
  analyseText(`battery B1 agm, 12 V, 60 Ah\n${more}run W1 6 mm² black, 1 m, B1:- to ${end}\n`)
    .findings.filter(({ slug }) => slug === 'unknown-name')
    .map(({ message }) => message);

it('says how to name a part that only its kind is written of', () => {
  expect(messages('chassis')).toEqual([
    'There is no part “chassis”: declare one, as in “chassis G1 stud M8”, and write its name here.',
  ]);
  expect(messages('earth')[0]).toContain('declare one, as in “chassis G1 stud M8”');
  // In capitals it is a name, which may still be declared.
  expect(messages('CHASSIS')[0]).toMatch(
    /^There is no part “CHASSIS” here or in the files this one uses: write its statement/,
  );
});

it('proposes a name that is near before that', () => {
  expect(messages('chassis', 'chassis CHASSI\n')).toEqual(['There is no part “chassis”: did you mean CHASSI?']);
});
