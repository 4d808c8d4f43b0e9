/** How long a battery lasts, on its hover. */
import { expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { placeOf, read } from './hovering.ts';

const hovered = (battery: string, cases = 'case night LAMP on\ncase day LAMP off\n', load = '20 A') => {
  const text = `battery B1 ${battery}
load LAMP ${load}
run W1 6 mm² red, 1 m, B1:+ to LAMP:+
run W2 6 mm² black, 1 m, B1:- to LAMP:-
${cases}`;
  return read(analyseText(text), placeOf(text, 'B1'))?.value ?? '';
};

it('is told for the case that draws most, with the exponent and where it comes from', () => {
  // 20 × (200/(20 × 20))^1.2 = 8.7 h, the published example.
  expect(hovered('lead-acid, 12 V, 200 Ah')).toContain(
    'Full, it lasts about 8.7 h at the 20 A of night (Peukert’s rule: exponent 1.2 and capacity rated over 20 h, usual for lead-acid; common practice, no source).',
  );
  expect(hovered('lithium-iron-phosphate, 12.8 V, 100 Ah', undefined, '10 A')).toContain('lasts about 10 h at');
  expect(hovered('lead-acid, 12 V, 7 Ah')).toMatch(/lasts about \d+ min at the 20 A/u);
});

it('is not told where nothing is drawn, or its capacity is not known', () => {
  for (const text of [hovered('lead-acid, 12 V, 200 Ah', 'case day LAMP off\n'), hovered('lead-acid, 12 V, ? Ah')])
    expect(text).not.toContain('it lasts');
});
