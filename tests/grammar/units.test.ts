import { describe, expect, it } from 'vitest';
import { readNumber, tidyNumber } from '../../grammar/numbers.ts';
import { parseDocument } from '../../grammar/parse.ts';
import type { QuantityAtom } from '../../grammar/tree.ts';
import {
  dimensionNames,
  formatQuantity,
  fromSi,
  gaugeOf,
  gaugeText,
  plainNumber,
  spellings,
  symbolsOf,
  toSi,
  unitAt,
  unitOf,
  units,
  usualSymbol,
} from '../../grammar/units.ts';
import { vocabulary } from './vocabulary.ts';

/** The one quantity of a text, and its problems. */
function quantity(text: string): { atom: QuantityAtom; slugs: string[] } {
  const [statement] = parseDocument(`reading ${text}`, vocabulary).statements;
  const atoms = statement?.node.body ?? [];
  expect(atoms.map(({ kind }) => kind)).toEqual(['quantity']);
  return { atom: atoms[0] as QuantityAtom, slugs: statement?.node.problems.map(({ slug }) => slug) ?? [] };
}

/** A number that is right in every unit, gauges included. */
const sample = '3';

describe('every unit', () => {
  it.each(units)('$symbol: as the symbol and in every accepted spelling, with a space and without', (unit) => {
    for (const spelling of [unit.symbol, ...unit.accepted]) {
      for (const gap of ['', ' ', '\u00a0', '\u2009', '\t']) {
        const { atom, slugs } = quantity(sample + gap + spelling);
        expect([spelling, atom.unit, atom.dimension, atom.value, slugs]).toEqual([
          spelling,
          unit.symbol,
          unit.dimension,
          3,
          [],
        ]);
        expect(atom.text).toBe(sample + gap + spelling);
      }
    }
  });

  it.each(units.filter(({ misspelt }) => misspelt.length > 0))(
    '$symbol: what is misspelt is understood and said',
    (unit) => {
      for (const spelling of unit.misspelt) {
        // A quote behind a space would open a text.
        const { atom, slugs } = quantity(`${sample}${spelling === '"' ? '' : ' '}${spelling}`);
        expect([spelling, atom.unit, atom.value, slugs]).toEqual([spelling, unit.symbol, 3, ['unit-spelling']]);
      }
    },
  );

  it.each(units)('$symbol: there and back through SI', (unit) => {
    for (const value of [0, 1, -12, 0.35, 4000]) expect(fromSi(toSi(value, unit), unit)).toBeCloseTo(value, 9);
    expect(unitOf(unit.symbol)).toBe(unit);
    expect(symbolsOf(unit.dimension)).toContain(unit.symbol);
    expect(dimensionNames[unit.dimension]).toMatch(/\w/);
  });

  it('has each spelling once', () => {
    const all = spellings.map(({ spelling }) => spelling);
    expect(all.filter((spelling, i) => all.indexOf(spelling) !== i)).toEqual([]);
  });

  it('covers the notation', () => {
    const listed =
      'A mA kA V mV kV W kW Wh kWh Ah Ω ohm mΩ mohm mm² mm2 AWG mm cm m ft inch °C degC °F degF h min s % %/°C V/°C mA/°C Nm kg A²s h/day °';
    for (const spelling of listed.split(' ')) expect(quantity(`${sample} ${spelling}`).slugs).toEqual([]);
  });
});

describe('values in SI', () => {
  it.each([
    ['6 mm²', 6e-6],
    ['14 ft', 4.2672],
    ['6 inch', 0.1524],
    ['35 °C', 35],
    ['95 °F', 35],
    ['-40 °F', -40],
    ['150 Ah', 540_000],
    ['2 kWh', 7_200_000],
    ['50 %', 0.5],
    ['-0.30 %/°C', -0.003],
    ['4 h/day', 14_400],
    ['0.2 mΩ', 0.0002],
    ['10 AWG', 10],
    ['1/0 AWG', 0],
    ['2/0 AWG', -1],
    ['4/0 AWG', -3],
    ['.5 mm²', 5e-7],
    ['\u221212 °C', -12],
    ['\u201312 °C', -12],
    ['+3 A', 3],
  ])('%s', (text, si) => {
    expect(quantity(text).atom.si).toBeCloseTo(si, 12);
  });

  it('of a blank, of a number with a comma, and of no gauge is not known', () => {
    for (const text of ['? mm²', '?mm2', '2,5 mm²', '1,000 W', '41 AWG', '5/0 AWG', '2.5 AWG'])
      expect(quantity(text).atom.si).toBeUndefined();
  });

  it('has places for number and unit, in whichever order they stand', () => {
    const { atom } = quantity('2.5 mm²');
    expect([atom.numberSpan, atom.unitSpan]).toEqual([
      { start: 8, end: 11 },
      { start: 12, end: 15 },
    ]);
    const [statement] = parseDocument('run W1 AWG 10', vocabulary).statements;
    expect(statement?.node.body[0]).toMatchObject({
      value: 10,
      numberSpan: { start: 11, end: 13 },
      unitSpan: { start: 7, end: 10 },
    });
  });
});

describe('a unit stands only behind a number, whole', () => {
  const at = (text: string) => unitAt(text, 0)?.spelling;
  it.each([
    ['A', 'A'],
    ['A,', 'A'],
    ['A red', 'A'],
    ['Ah', 'Ah'],
    ['A-way', undefined],
    ['A:1', undefined],
    ['A/B', undefined],
    ['V1', undefined],
    ['mm²', 'mm²'],
    ['mm²,', 'mm²'],
    ['mm2red', undefined],
    ['sq mm', 'sq mm'],
    ['sq mm2', undefined],
    ['h a day', 'h a day'],
    ['h a week', 'h'],
    ['h/day', 'h/day'],
    ['% of', '%'],
    ['° C', '° C'],
    ['° north', '°'],
    ['in', undefined],
    ['', undefined],
  ])('%s', (text, spelling) => {
    expect(at(text)).toBe(spelling);
  });
});

describe('numbers as they are written', () => {
  it.each([
    ['12', 12],
    ['12.80', 12.8],
    ['-0.5', -0.5],
    ['.5', 0.5],
    ['\u22125', -5],
  ])('%s is a number', (text, value) => {
    expect(readNumber(text)).toEqual({ value, meant: [] });
  });

  it.each([
    ['2,5', ['2.5']],
    ['0,500', ['0.500']],
    ['1,000', ['1000', '1.000']],
    ['12,500', ['12500', '12.500']],
    ['1,0000', ['1.0000']],
    ['1,234,567', ['1234567']],
    ['1,234.5', ['1234.5']],
    ['1.234,5', ['1234.5']],
    ['1.234.567', ['1234567']],
    ['-2,5', ['-2.5']],
  ])('%s is not, and may mean this', (text, meant) => {
    expect(readNumber(text)).toEqual({ value: undefined, meant });
  });

  it.each(['1,2,3', '1.2.3', '5,4.2'])('%s is a list', (text) => {
    expect(readNumber(text)).toBeUndefined();
  });

  it('are written with a plain minus and a nought before the point, and keep their digits', () => {
    expect(['\u221212.50', '\u20133', '.5', '-.5', '0.50'].map(tidyNumber)).toEqual([
      '-12.50',
      '-3',
      '0.5',
      '-0.5',
      '0.50',
    ]);
  });
});

describe('figures for people', () => {
  it('have no trailing noughts and no sign on a nought', () => {
    expect([plainNumber(12), plainNumber(12.5), plainNumber(-0.001), plainNumber(1 / 3, 3)]).toEqual([
      '12',
      '12.5',
      '0',
      '0.333',
    ]);
  });

  it('carry their unit as the notation writes it', () => {
    expect(formatQuantity(6e-6, 'mm²')).toBe('6 mm²');
    expect(formatQuantity(35, '°F', 0)).toBe('95 °F');
    expect(formatQuantity(-1, 'AWG')).toBe('2/0 AWG');
    expect(formatQuantity(52.1, '°')).toBe('52.1°');
    expect(formatQuantity(0.8, '%')).toBe('80 %');
    expect(() => formatQuantity(1, 'furlong')).toThrow('furlong');
  });

  it('take the unit an example uses', () => {
    expect(usualSymbol('length', 'along LOFT 2.4 m')).toBe('m');
    expect(usualSymbol('length', 'od 4.8 mm')).toBe('mm');
    expect(usualSymbol('current', 'lowest 11 V')).toBe('A');
    expect(usualSymbol('angle', 'tilt 10°')).toBe('°');
  });
});

describe('gauges', () => {
  it('go from 40 up to 4/0', () => {
    expect(['40', '10', '1', '1/0', '2/0', '3/0', '4/0', '0', '00', '0000'].map(gaugeOf)).toEqual([
      40, 10, 1, 0, -1, -2, -3, 0, -1, -3,
    ]);
    expect(['41', '5/0', '00000', '2.5', '-1', ''].map(gaugeOf)).toEqual(Array(6).fill(undefined));
    expect([10, 1, 0, -1, -3].map(gaugeText)).toEqual(['10', '1', '1/0', '2/0', '4/0']);
  });
});
