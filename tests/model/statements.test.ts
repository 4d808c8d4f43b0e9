/** The system, cases, expectations and accepted findings. */
import { describe, expect, it } from 'vitest';
import { modelOf, problemsIn } from './built.ts';
import { spokewagon } from './example.ts';

describe('the example of the reference', () => {
  it('builds with no problem', () => {
    expect(problemsIn(spokewagon)).toEqual([]);
  });

  it('has all its parts', () => {
    const model = modelOf(spokewagon);
    expect([...model.parts.keys()]).toEqual([
      'P1',
      'P2',
      'ROOF-BOX',
      'Q1',
      'U1',
      'B1',
      'F1',
      'Q2',
      'POS',
      'NEG',
      'F2',
      'LAMPS',
      'PV-POS',
      'PV-NEG',
    ]);
    expect(model.runs.size).toBe(18);
    expect(model.runs.get('W20')).toMatchObject({ size: undefined, sizeBlank: true, lengthMetres: 5.5 });
    expect(model.parts.get('P2')?.location?.name).toBe('ROOF');
    expect(model.cases.map(({ name }) => name)).toEqual(['night']);
  });
});

describe('the system', () => {
  it('is told in SI', () => {
    expect(modelOf(spokewagon).system).toMatchObject({
      title: 'Spokewagon',
      nominalVolts: 12,
      ambientCelsius: 35,
      coldestCelsius: -12,
      hottestCelsius: 70,
      limits: 'iec-60364-5-52',
    });
  });

  it('has the voltage of the battery first by name where it says none', () => {
    expect(modelOf('battery B2 agm, 24 V, 80 Ah\nbattery B1 agm, 12 V, 80 Ah\n').system.nominalVolts).toBe(12);
    expect(modelOf('system "X"\nbattery B2 agm, 24 V, 80 Ah\nbattery B1 agm, ? V, 80 Ah\n').system.nominalVolts).toBe(
      24,
    );
    expect(modelOf('load L 5 W\n').system.nominalVolts).toBeUndefined();
  });

  it('keeps no set of limits that there is not', () => {
    expect(modelOf('system 12 V, limits mine\n').system.limits).toBeUndefined();
  });
});

describe('cases', () => {
  it('say what is on, how full and how warm', () => {
    const [night, day] = modelOf(
      'battery B1 agm, 12 V, 80 Ah\nbattery B2 agm, 12 V, 80 Ah\nload L1 and L2 and L3 5 W\ncase night "Dark" sun 0 %, charge 50 %, B2 charge 80 %, L1 and L2 on, L3 off, ambient 5 °C\ncase day sun 80 %, B1 at 12.5 V, all loads on, all sources off, conductors at 20 °C\n',
    ).cases;
    expect(night).toMatchObject({
      name: 'night',
      title: 'Dark',
      implied: false,
      sun: 0,
      charge: 0.5,
      ambientCelsius: 5,
      conductorsCelsius: undefined,
    });
    expect([...(night?.on ?? [])]).toEqual([
      ['L1', true],
      ['L2', true],
      ['L3', false],
    ]);
    expect([...(night?.chargeOf ?? [])]).toEqual([['B2', 0.8]]);
    expect(day).toMatchObject({
      sun: 0.8,
      charge: undefined,
      allLoads: true,
      allSources: false,
      conductorsCelsius: 20,
    });
    expect([...(day?.voltsOf ?? [])]).toEqual([['B1', 12.5]]);
  });

  it('are four where none is stated', () => {
    const cases = modelOf('system 12 V\nload L 5 W\n').cases;
    expect(
      cases.map(({ name, implied, sun, allLoads, allSources }) => [name, implied, sun, allLoads, allSources]),
    ).toEqual([
      ['loads-only', true, undefined, true, undefined],
      ['sun-only', true, 1, undefined, undefined],
      ['sun-and-loads', true, 1, true, undefined],
      ['charging', true, 1, undefined, true],
    ]);
    expect(modelOf('').cases).toEqual([]);
  });

  it('take nothing from names that are not there', () => {
    const [night] = modelOf('fuse F1 3 A\ncase night LAMP on, F1 charge 50 %, F1 off\n').cases;
    expect([...(night?.on ?? [])]).toEqual([['F1', false]]);
    expect(night?.chargeOf.size).toBe(0);
  });
});

describe('expectations and allowances', () => {
  it('are kept with their words', () => {
    const text = `${spokewagon}allow drop-over-limit on W20 "used for a second"\nallow entry-unstated "all of it is temporary"\n`;
    const model = modelOf(text);
    expect(model.problems).toEqual([]);
    expect(
      model.expectations.map(({ facts }) => [facts.word('what', 'subject'), facts.number('what', 'limit')]),
    ).toEqual([['LAMPS', 11.5]]);
    expect(model.allowances.map(({ slug, subject, reason }) => [slug, subject, reason])).toEqual([
      ['drop-over-limit', 'W20', 'used for a second'],
      ['entry-unstated', undefined, 'all of it is temporary'],
    ]);
    const [first] = model.allowances;
    expect(text.slice(first?.slugPlace.span.start, first?.slugPlace.span.end)).toBe('drop-over-limit');
  });
});
