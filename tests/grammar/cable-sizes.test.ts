/** The grammar offers the sizes that the tables have. */
import { expect, it } from 'vitest';
import { unitsOfSizes, usualAreas, usualGauges } from '../../grammar/cable-sizes.ts';
import { gaugeText } from '../../grammar/units.ts';
import { areasMm2, gauges } from '../../server/tables/sizes.ts';

it('has the sizes of the tables', () => {
  expect([...usualAreas]).toEqual([...areasMm2]);
  expect([...usualGauges]).toEqual(gauges.map(gaugeText));
});

it('offers a unit of a size only where there is a cable of it, and other units always', () => {
  const units = ['m', 'mm²', 'AWG'];
  expect(unitsOfSizes('35', units)).toEqual(['m', 'mm²']);
  expect(unitsOfSizes('12', units)).toEqual(['m', 'AWG']);
  expect(unitsOfSizes('6', units)).toEqual(units);
  expect(unitsOfSizes('2/0', units)).toEqual(['AWG']);
});
