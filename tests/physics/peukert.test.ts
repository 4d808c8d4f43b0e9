/** Peukert's rule against published examples, in both of its forms, which are one. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import {
  enduranceHours,
  hoursByOneAmpCapacity,
  hoursByRatedCapacity,
  peukertCapacity,
} from '../../server/physics/peukert.ts';
import { usualPeukert } from '../../server/tables/peukert.ts';
import { figure, readTable } from '../reference/read.ts';

const rows = readTable('peukert-examples.csv').map((row) => ({
  oneAmp: !(row.form ?? '').includes('H('),
  exponent: row.k === '' ? undefined : figure(row, 'k'),
  hours: figure(row, 'published_t_h'),
  ampHours: row.published_Ah === '' ? undefined : figure(row, 'published_Ah'),
  capacity: figure(row, 'C_Ah'),
  ratedHours: row.H_h === '' ? undefined : figure(row, 'H_h'),
  amps: figure(row, 'I_A'),
  status: row.status ?? '',
}));

describe('published examples', () => {
  it('are four, two a form', () => {
    expect(rows.map(({ oneAmp }) => oneAmp)).toEqual([true, true, false, false]);
  });

  test.each(rows)(
    '$capacity Ah at $amps A, exponent $exponent: $hours h ($status)',
    ({ oneAmp, exponent, hours, ampHours, capacity, ratedHours = Number.NaN, amps }) => {
      // The last gives none: it follows from the answer, and lies where lead-acid does.
      const k = exponent ?? Math.log(hours / ratedHours) / Math.log(capacity / (amps * ratedHours));
      expect(k).toBeGreaterThan(1.1);
      expect(k).toBeLessThan(1.45);
      const found = oneAmp
        ? hoursByOneAmpCapacity(capacity, k, amps)
        : hoursByRatedCapacity(capacity, ratedHours, k, amps);
      // Printed with one decimal, or with ten digits.
      expect(Math.abs(found - hours)).toBeLessThan(String(hours).length > 5 ? 1e-9 : 0.05);
      if (ampHours !== undefined) expect(Math.abs(found * amps - ampHours)).toBeLessThan(0.5);
    },
  );
});

const capacity = fc.double({ min: 1, max: 1000, noNaN: true });
const hours = fc.constantFrom(1, 5, 10, 20, 100);
const exponent = fc.double({ min: 1, max: 1.5, noNaN: true });
const current = fc.double({ min: 0.01, max: 500, noNaN: true });

it('the forms are one where the capacity at 1 A is worked out from the rated one', () => {
  fc.assert(
    fc.property(capacity, hours, exponent, current, (c, h, k, i) => {
      const direct = h * (c / (i * h)) ** k;
      expect(hoursByOneAmpCapacity(peukertCapacity(c, h, k), k, i) / direct).toBeCloseTo(1, 9);
      expect(hoursByRatedCapacity(c, h, k, i) / direct).toBeCloseTo(1, 9);
      // At the rated current it lasts the rated hours, and with exponent 1 capacity is all.
      expect(hoursByRatedCapacity(c, h, k, c / h) / h).toBeCloseTo(1, 9);
      expect(hoursByRatedCapacity(c, h, 1, i) / (c / i)).toBeCloseTo(1, 9);
    }),
  );
});

it('more current never lasts longer, and less never gives more than the rated capacity', () => {
  fc.assert(
    fc.property(capacity, hours, exponent, current, current, (c, h, k, a, b) => {
      const [less, more] = [Math.min(a, b), Math.max(a, b)];
      expect(enduranceHours(c, h, k, more)).toBeLessThanOrEqual(enduranceHours(c, h, k, less) * (1 + 1e-12));
      expect(enduranceHours(c, h, k, less) * less).toBeLessThanOrEqual(c * (1 + 1e-12));
    }),
  );
  expect([enduranceHours(100, 20, 1.2, 0), hoursByOneAmpCapacity(100, 1.2, 0)]).toEqual(
    Array(2).fill(Number.POSITIVE_INFINITY),
  );
});

test.each(['lead-acid', 'agm', 'gel', 'lithium-iron-phosphate', 'lithium-ion'])('%s has usual figures', (chemistry) => {
  const { exponent: k, ratedHours } = usualPeukert(chemistry) ?? { exponent: 0, ratedHours: 0 };
  expect(k).toBeGreaterThanOrEqual(1);
  expect(k).toBeLessThan(1.5);
  expect([5, 20]).toContain(ratedHours);
  expect(usualPeukert('nickel')).toBeUndefined();
});
