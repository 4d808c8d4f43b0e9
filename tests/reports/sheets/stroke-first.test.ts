import { expect, it } from 'vitest';
import { withStrokesFirst } from '../../../server/reports/sheets/stroke-first.ts';

it('sets the outline of words under them, and leaves all other words', () => {
  const plain = '<text x="1" stroke="#fff">W1</text>';
  const volts = '<text x="1" fill="#000" paint-order="stroke" stroke="#fff" stroke-width="2.5">12 V</text>';
  expect(withStrokesFirst(`<g>${plain}${volts}</g>`)).toBe(
    `<g>${plain}<text x="1" stroke="#fff" stroke-width="2.5" fill="none">12 V</text><text x="1" fill="#000">12 V</text></g>`,
  );
});
