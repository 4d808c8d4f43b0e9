/** The JSON of the answers: its shape, and that it never says what is not known. */
import { readFileSync } from 'node:fs';
import Ajv from 'ajv';
import { describe, expect, it } from 'vitest';
import { answersJson } from '../../server/answers/answers-json.ts';
import { analyseText } from '../analysed.ts';
import { answersOf } from './spec.ts';

const lamp = `battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
fuse F1 20 A
load LAMP 5 A
run W1 ? mm² red, 1 m, B1:+ to F1:in
run W2 2.5 mm² red, 2 m, F1:out to LAMP:+
run W3 2 x 2.5 mm², 3 m
    black LAMP:- to B1:-
    blue  spare
case day LAMP on, conductors at 20 °C
case night B1 at 12.5 V
case gone LAMP on, B1 off
`;

describe('answers as JSON', () => {
  const { answers } = answersOf(lamp);
  const json = answersJson(answers);

  it('have version 1 and every case in the order of statements, or the one asked for', () => {
    expect([json.version, json.cases.map(({ name }) => name)]).toEqual([1, ['day', 'night', 'gone']]);
    expect(answersJson(answers, 'night').cases.map(({ name }) => name)).toEqual(['night']);
    expect(answersJson(answers, 'nosuch').cases).toEqual([]);
  });

  it('tell terminals, cores and parts', () => {
    const [day] = json.cases;
    expect(Object.keys(day?.terminals ?? {})).toEqual(['B1:+', 'B1:-', 'F1:in', 'F1:out', 'LAMP:+', 'LAMP:-']);
    expect(day?.terminals['B1:+']).toEqual({ volts: expect.closeTo(11.95, 9) });
    expect(day?.cores.map(({ run, core, from, to }) => [run, core, from, to])).toEqual([
      ['W1', 'red', 'B1:+', 'F1:in'],
      ['W2', 'red', 'F1:out', 'LAMP:+'],
      ['W3', 'black', 'LAMP:-', 'B1:-'],
    ]);
    // 2 m × 7.98 mΩ/m × 5 A = 79.8 mV, 0.399 W.
    expect(day?.cores[1]).toEqual({
      run: 'W2',
      core: 'red',
      from: 'F1:out',
      to: 'LAMP:+',
      amps: expect.closeTo(5, 9),
      assumed: false,
      dropVolts: expect.closeTo(0.0798, 9),
      watts: expect.closeTo(0.399, 9),
      celsius: 20,
      capacityAmps: 27,
    });
    expect(Object.keys(day?.parts ?? {})).toEqual(['B1', 'F1', 'LAMP']);
    expect(day?.parts.F1).toEqual({ amps: expect.closeTo(5, 9) });
    expect(Object.keys(day?.parts.LAMP ?? {}).sort()).toEqual(['amps', 'dropPercent', 'dropVolts', 'volts', 'watts']);
  });

  it('leave the capacity of a size that is not known open', () => {
    expect(json.cases[0]?.cores[0]?.capacityAmps).toBeNull();
  });

  it('write no minus before a nought', () => {
    expect(JSON.stringify(json)).not.toMatch(/:-0[,}]/);
    expect(json.cases.flatMap(({ cores }) => cores.map(({ amps }) => Object.is(amps, -0)))).not.toContain(true);
  });

  it.each([
    'first-lamp',
    'spokewagon',
    'spokewagon-as-found',
    'orchard-cabin',
    'towpath-kiosk',
    'ridge-hut',
    'tuning-van',
    'whetstone',
  ])('of samples/%s.amps keep to the schema', (name) => {
    const validate = new Ajv({ strict: false }).compile(
      JSON.parse(readFileSync('server/cli/answers.schema.json', 'utf8')),
    );
    const stock = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
    const made = answersJson(analyseText(readFileSync(`samples/${name}.amps`, 'utf8'), stock).answers);
    validate(JSON.parse(JSON.stringify(made)));
    expect(validate.errors).toBeNull();
    expect(made.cases.length).toBeGreaterThan(0);
  });

  it('of a case without an answer say why, and nothing else', () => {
    const far = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
load KETTLE 900 W
run W1 1.5 mm² red, 10 m, B1:+ to KETTLE:+
run W2 1.5 mm² black, 10 m, KETTLE:- to B1:-
case boil KETTLE on
`);
    const [boil] = answersJson(far.answers).cases;
    expect(boil).toEqual({
      name: 'boil',
      converged: false,
      trouble: expect.stringMatching(/^KETTLE cannot be fed/),
      overloads: [{ parts: ['KETTLE'], askedWatts: 900, fedWatts: expect.any(Number) }],
      terminals: {},
      cores: [],
      parts: {},
    });
  });
});
