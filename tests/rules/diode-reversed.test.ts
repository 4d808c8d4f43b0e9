/** Diodes that point the wrong way, each told once; those that point the right way in every use they have. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';

const found = (text: string) => analyseText(text).findings;
const told = (text: string) => found(text).map(({ slug, subject }) => `${slug} ${subject}`);
const message = (text: string) => found(text).find(({ slug }) => slug === 'diode-reversed')?.message;
const mended = (text: string) => {
  const [fix] = found(text).find(({ slug }) => slug === 'diode-reversed')?.fixes ?? [];
  return fix === undefined ? text : (applied({ 'spec.amps': text }, fix.edits)['spec.amps'] ?? '');
};

const base = `system "Shed" 12 V
battery B1 agm, 12 V, 100 Ah, sealed, internal 15 mΩ
fuse F1 20 A, blade, 32 V, breaks 5 kA
run W1 6 mm² red, 105 °C, 0.2 m, B1:+ to F1:in
diode D1 30 A, loses 0.2 V
`;
const spec = (...lines: readonly string[]) => `${base}${lines.join('\n')}\n`;
const run = (number: number, ends: string, colour = 'red') => `run W${number} 6 mm² ${colour}, 105 °C, 0.4 m, ${ends}`;

describe('a diode in the feed of a load', () => {
  const lamp = (load: string, first: string, second: string, ...more: readonly string[]) =>
    spec(
      load,
      run(2, `F1:out to D1:${first}`),
      run(3, `D1:${second} to LAMP:+`),
      run(4, 'LAMP:- to B1:-', 'black'),
      ...more,
    );

  it.each([
    'load LAMP 24 W',
    'load LAMP 2 A',
    'load LAMP 6 Ω',
    'inverter LAMP 100 W, insulated case',
    'socket LAMP 20 A',
  ])('keeps everything from %s', (load) => {
    expect(told(lamp(load, 'in', 'out'))).toEqual([]);
    const text = lamp(load, 'out', 'in', 'case night LAMP on', 'expect LAMP voltage at least 10 V in night');
    expect(told(text)).toEqual(['diode-reversed D1']);
    expect(message(text)).toBe(
      'D1 lets current pass from D1:in to D1:out only, so LAMP gets nothing from B1: turn it round, swapping what is on the two.',
    );
    expect(told(mended(text))).toEqual([]);
  });

  it('is told in the return as well, and behind another that stands rightly', () => {
    const back = (first: string, second: string) =>
      spec(
        'load LAMP 24 W',
        run(2, 'F1:out to LAMP:+'),
        run(3, `LAMP:- to D1:${first}`, 'black'),
        run(4, `D1:${second} to B1:-`, 'black'),
      );
    expect(told(back('in', 'out'))).toEqual([]);
    expect(told(back('out', 'in'))).toEqual(['diode-reversed D1']);
    expect(message(back('out', 'in'))).toContain('nothing comes back from LAMP to B1, and LAMP gets nothing');
    const row = (one: string, other: string) =>
      spec(
        'diode D2 30 A, loses 0.2 V',
        'load LAMP 12 W, lowest 9 V',
        run(2, `F1:out to D1:${one}`),
        run(3, `D1:${one === 'in' ? 'out' : 'in'} to D2:${other}`),
        run(4, `D2:${other === 'in' ? 'out' : 'in'} to LAMP:+`),
        run(5, 'LAMP:- to B1:-', 'black'),
      );
    const reversed = (text: string) => told(text).filter((one) => one.startsWith('diode-reversed'));
    expect(reversed(row('in', 'in'))).toEqual([]);
    expect(reversed(row('out', 'in'))).toEqual(['diode-reversed D1']);
    expect(reversed(row('in', 'out'))).toEqual(['diode-reversed D2']);
  });

  it('says what else feeds nothing where it is accepted', () => {
    const text = lamp('load LAMP 24 W', 'out', 'in', 'case night LAMP on', 'allow diode-reversed on D1 "as drawn"');
    expect(told(text)).toEqual(['dead-in-case LAMP']);
    expect(found(text)[0]?.message).toContain('D1 lets current pass the other way only. Leave LAMP off there');
  });
});

describe('diodes of two batteries', () => {
  const two = (first: string, second: string, ...more: readonly string[]) =>
    spec(
      'battery B2 agm, 12 V, 100 Ah, sealed, internal 15 mΩ',
      'fuse F2 20 A, blade, 32 V, breaks 5 kA',
      'diode D2 30 A, loses 0.2 V',
      'load LAMP 12 W',
      'busbar POS 100 A',
      run(2, 'B2:+ to F2:in'),
      run(3, `F1:out to D1:${first}`),
      run(4, `D1:${first === 'in' ? 'out' : 'in'} to POS`),
      run(5, `F2:out to D2:${second}`),
      run(6, `D2:${second === 'in' ? 'out' : 'in'} to POS`),
      run(7, 'POS to LAMP:+'),
      run(8, 'LAMP:- to B1:-', 'black'),
      run(9, 'B2:- to B1:-', 'black'),
      ...more,
    );
  const reversed = (text: string) =>
    found(text).flatMap(({ slug, message: said }) => (slug === 'diode-reversed' ? [said] : []));

  it('are told for the one that is reversed', () => {
    expect(reversed(two('in', 'in'))).toEqual([]);
    expect(reversed(two('in', 'out'))).toHaveLength(1);
    expect(reversed(two('in', 'out'))[0]).toContain(
      'D2 lets current pass from D2:in to D2:out only, so LAMP gets nothing from B2',
    );
    expect(reversed(two('out', 'in'))[0]).toContain('LAMP gets nothing from B1');
  });

  it('are left alone where something charges one of them through both', () => {
    const charged = [
      'charger U1 12 V, 10 A, from mains, insulated case',
      run(10, 'U1:out+ to F1:out'),
      run(11, 'U1:out- to B1:-', 'black'),
    ];
    expect(reversed(two('in', 'out', ...charged))).toEqual([]);
  });
});

describe('a diode of what charges', () => {
  const sunny = (first: string, second: string) =>
    spec(
      'panel P1 80 W, voc 22.4 V, isc 4.8 A, vmp 18.4 V, imp 4.4 A',
      'isolator Q1 2 poles, 25 A dc, 150 V, category DC-PV2',
      'controller U1 mppt, pv 50 V 15 A, output 15 A, common negative',
      run(2, `P1:+ to D1:${first}`),
      run(3, `D1:${second} to Q1:1`),
      run(4, 'P1:- to Q1:3', 'black'),
      run(5, 'Q1:2 to U1:pv+'),
      run(6, 'Q1:4 to U1:pv-', 'black'),
      run(7, 'F1:out to U1:bat+'),
      run(8, 'U1:bat- to B1:-', 'black'),
    );

  it('is told where it keeps the sun from a controller, and no case is told to have no answer', () => {
    expect(told(sunny('in', 'out'))).toEqual([]);
    expect(told(sunny('out', 'in'))).toEqual(['diode-reversed D1']);
    expect(message(sunny('out', 'in'))).toContain('so U1 gets nothing from P1');
    expect(told(mended(sunny('out', 'in')))).toEqual([]);
  });

  it('is told where an alternator is on an output of it', () => {
    const split = (alternator: string, battery: string) =>
      spec(
        'alternator ALT 14.2 V, 20 A',
        'battery B2 agm, 12 V, 100 Ah, sealed, internal 15 mΩ',
        'fuse F2 20 A, blade, 32 V, breaks 5 kA',
        run(2, `ALT:+ to D1:${alternator}`),
        run(3, `F1:out to D1:${battery}`),
        run(4, 'B2:+ to F2:in'),
        run(5, 'F2:out to D1:out2'),
        run(6, 'B2:- to B1:-', 'black'),
        run(7, 'ALT:- to B1:-', 'black'),
      ).replace('diode D1 30 A, loses 0.2 V', 'diode D1 30 A, 2 outputs');
    expect(told(split('in', 'out'))).not.toContain('diode-reversed D1');
    expect(message(split('out', 'in'))).toContain('so B1 gets nothing from ALT');
  });
});

describe('a diode beside a coil', () => {
  const coil = (first: string, second: string) =>
    spec(
      'relay K1 coil 12 V 150 mA, contact 20 A',
      'switch S1 1 pole, 20 A dc, 24 V',
      'load FAN 6 W',
      run(2, 'F1:out to S1:1'),
      run(3, 'S1:2 to K1:86'),
      run(4, 'K1:85 to B1:-', 'black'),
      run(5, `K1:86 to D1:${first}`),
      run(6, `K1:85 to D1:${second}`, 'black'),
      run(7, 'F1:out to K1:30'),
      run(8, 'K1:87 to FAN:+'),
      run(9, 'FAN:- to B1:-', 'black'),
    );

  it('is a short-circuit the wrong way round, and nothing to tell the right way', () => {
    expect(told(coil('out', 'in'))).toEqual([]);
    expect(told(coil('in', 'out'))).toContain('diode-reversed D1');
    expect(message(coil('in', 'out'))).toContain('straight from the plus of B1 to its minus: a short-circuit');
  });
});
