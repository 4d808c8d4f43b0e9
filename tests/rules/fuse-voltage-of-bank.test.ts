/** The voltage that a fuse has to part is told with all that makes it up. */
import { expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const bank = (fuse: string, charged = '') => `system "Bus" 24 V
battery B1 and B2 lead-acid, 12 V, 100 Ah, internal 8 mΩ${charged}
fuse F1 10 A, glass, ${fuse}, breaks 6 kA
load LAMPS 60 W
run W0 16 mm² black, 0.2 m, B1:+ to B2:-
run W1 4 mm² red, 0.1 m, B2:+ to F1:in
run W2 4 mm² red, 0.5 m, F1:out to LAMPS:+
run W3 4 mm² black, 0.5 m, LAMPS:- to B1:-
`;
const found = (text: string) => analyseText(text).findings.filter(({ slug }) => slug === 'fuse-voltage');

it('names both batteries in series, with what each makes', () => {
  const [only, ...more] = found(bank('12 V'));
  expect(more).toEqual([]);
  expect(only?.message).toContain('but B1 and B2 in series give 24 V, and above its rating');
  expect(only?.related.map(({ message }) => message)).toEqual(['B1 makes the voltage', 'B2 makes the voltage']);
});

it('names both where they are charged at more', () => {
  const [only] = found(bank('24 V', ', charge voltage 14.4 V'));
  expect(only?.message).toContain('but B1 and B2 in series are charged at 28.8 V');
});

it('names one where it is one', () => {
  const one = bank('6 V')
    .replace('B1 and B2', 'B2')
    .replace(/^run W0.*\n/mu, '')
    .replace('B1:-', 'B2:-');
  expect(found(one)[0]?.message).toContain('but B2 gives 12 V');
  expect(found(one)[0]?.related).toEqual([]);
});
