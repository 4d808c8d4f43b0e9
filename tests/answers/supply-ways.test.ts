/** The way of a load: whole, in order, and its drops are what is missing at the load. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { lamp } from '../session/specs.ts';

const stock = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
const samples = readdirSync('samples').filter((name) => name.endsWith('.amps') && name !== 'stock.amps');

describe('the way of a load', () => {
  it('goes out over every core and contact and back', () => {
    const { model, answers } = analyseText(lamp());
    const load = model.parts.get('LAMP');
    if (load === undefined) throw new Error('no lamp');
    const [way, ...others] = answers.waysTo(load, answers.cases[0]?.name ?? '');
    expect(others).toEqual([]);
    const told = way?.steps.map(({ edge, side, from, to }) => [
      edge.is === 'core' ? edge.core.run.name : edge.is,
      side,
      from.id,
      to.id,
    ]);
    expect(told).toEqual([
      ['W1', 'out', 'B1:+', 'F1:in'],
      ['contact', 'out', 'F1:in', 'F1:out'],
      ['W2', 'out', 'F1:out', 'LAMP:+'],
      ['W3', 'back', 'LAMP:-', 'B1:-'],
    ]);
    expect(way?.source.name).toBe('B1');
    expect(way?.amps).toBeGreaterThan(1.5);
    for (const { amps } of way?.steps ?? []) expect(amps).toBeCloseTo(way?.amps ?? 0, 9);
  });

  it('is followed by the way of the converter that feeds it', () => {
    const { model, answers } = analyseText(`system "Radio" 24 V
battery B1  lead-acid, 24 V, 80 Ah, internal 15 mΩ
converter C1  in 24 V, out 12 V, 10 A
load RADIO  12 W
run W1  4 mm² red, 1 m, B1:+ to C1:in+
run W2  4 mm² black, 1 m, C1:in- to B1:-
run W3  4 mm² red, 1 m, C1:out+ to RADIO:+
run W4  4 mm² black, 1 m, RADIO:- to C1:out-
`);
    const load = model.parts.get('RADIO');
    if (load === undefined) throw new Error('no radio');
    const ways = answers.waysTo(load, answers.cases[0]?.name ?? '');
    expect(ways.map((way) => [way.source.name, way.load.name])).toEqual([
      ['C1', 'RADIO'],
      ['B1', 'C1'],
    ]);
  });

  it('is none where nothing is drawn or the case is not known', () => {
    const { model, answers } = analyseText(lamp());
    const [battery, load] = [model.parts.get('B1'), model.parts.get('LAMP')];
    if (battery === undefined || load === undefined) throw new Error('parts are missing');
    expect(answers.waysTo(battery, answers.cases[0]?.name ?? '')).toEqual([]);
    expect(answers.waysTo(load, 'no such case')).toEqual([]);
  });

  it.each(samples)('in %s hangs together, and its drops add up to what is missing', (name) => {
    const { model, answers } = analyseText(readFileSync(`samples/${name}`, 'utf8'), stock);
    let ways = 0;
    for (const { name: caseName } of answers.cases)
      for (const part of model.parts.values())
        for (const { steps, sourceVolts, loadVolts } of answers.waysTo(part, caseName)) {
          ways += 1;
          const lost = steps.reduce((sum, { dropVolts }) => sum + dropVolts, 0);
          expect(Math.abs(lost - (sourceVolts - loadVolts))).toBeLessThan(1e-6);
          const sides = steps.map(({ side }) => side);
          expect(sides).toEqual([...sides].sort().reverse());
        }
    expect(ways).toBeGreaterThan(0);
  });
});
