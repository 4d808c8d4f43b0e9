/** Short circuits from the text of a spec: how much flows, what clears it, and whether the cables bear it. */
import { describe, expect, it } from 'vitest';
import { answersJson } from '../../server/answers/answers-json.ts';
import type { CoreFault, DeviceFault } from '../../server/answers/fault-answers.ts';
import { electromotiveForce } from '../../server/tables/battery.ts';
import { answersOf } from './spec.ts';

function faultsOf(text: string) {
  const { answers } = answersOf(text);
  const { faults } = answers;
  const defined = <T>(value: T | undefined, what: string): T => {
    if (value === undefined) throw new Error(`no ${what}`);
    return value;
  };
  return {
    answers,
    at: (id: string) => defined(faults.terminals.get(id), id),
    device: (name: string, pole = 1): DeviceFault =>
      defined(
        faults.devices.get(name)?.find((one) => one.pole === pole),
        name,
      ),
    core: (run: string): CoreFault =>
      defined(
        [...faults.cores.values()].find(({ core }) => core.run.name === run),
        run,
      ),
  };
}

/** Greatest resistance of 2.5 mm² class 5 by IEC 60228, Ω/m. */
const perMetre = 7.98e-3;
const hot = 1 + 0.00393 * 50;
const lamp = (fuse: string, more = '', battery = 'lead-acid, 12 V, 80 Ah, internal 10 mΩ') => `battery B1 ${battery}
fuse F1 ${fuse}
load LAMP 5 A
run W1 2.5 mm² red, 1 m, B1:+ to F1:in
run W2 2.5 mm² red, 2 m, F1:out to LAMP:+
run W3 2.5 mm² black, 3 m, LAMP:- to B1:-
case night LAMP on
${more}`;

describe('prospective currents', () => {
  const { at, core } = faultsOf(lamp('10 A, blade'));
  const [full, empty] = [1, 0].map((charge) => electromotiveForce('lead-acid', 12, charge)) as [number, number];

  it('are E/(Rb + Rout + Rback): full and at 20 °C the greatest, empty and at 70 °C the least', () => {
    expect(at('B1:+').greatestAmps).toBeCloseTo(full / 0.01, 6);
    expect(at('LAMP:+').greatestAmps).toBeCloseTo(full / (0.01 + 6 * perMetre), 6);
    expect(at('LAMP:-').greatestAmps).toBeCloseTo(full / (0.01 + 6 * perMetre), 6);
    expect(at('LAMP:+').leastAmps).toBeCloseTo(empty / (0.01 + 6 * perMetre * hot), 6);
  });

  it('at a fuse are those to the battery’s own minus, and at least those to the load’s return', () => {
    expect(at('F1:in').greatestAmps).toBeCloseTo(full / (0.01 + perMetre), 6);
    expect(at('F1:out').greatestTo?.id).toBe('B1:-');
    expect(at('F1:out').leastAmps).toBeCloseTo(empty / (0.01 + 4 * perMetre * hot), 6);
    expect(at('F1:out').leastTo?.id).toBe('LAMP:-');
  });

  it('of a core are least at its far end', () => {
    expect([core('W2').farEnd?.id, core('W3').farEnd?.id]).toEqual(['LAMP:+', 'LAMP:-']);
    expect(core('W2').leastAmps).toBe(at('LAMP:+').leastAmps);
  });

  it('count cold copper where the system is cold, and hot copper by its insulation', () => {
    const cold = faultsOf(`system "Shed" 12 V, coldest -20 °C\n${lamp('10 A, blade')}`);
    expect(cold.at('LAMP:+').greatestAmps).toBeCloseTo(full / (0.01 + 6 * perMetre * (1 - 0.00393 * 40)), 6);
    expect(cold.at('LAMP:+').leastAmps).toBeCloseTo(at('LAMP:+').leastAmps ?? 0, 9);
    const warm = faultsOf(lamp('10 A, blade').replaceAll('2.5 mm²', '2.5 mm²').replaceAll(', 2 m,', ', 105 °C, 2 m,'));
    expect(warm.at('LAMP:+').leastAmps).toBeCloseTo(
      empty / (0.01 + 4 * perMetre * hot + 2 * perMetre * (1 + 0.00393 * 85)),
      6,
    );
  });

  it('add up over batteries in parallel; the weaker alone is the least', () => {
    const { at: two } = faultsOf(`${lamp('10 A, blade')}battery B2 lead-acid, 12 V, 40 Ah, internal 30 mΩ
run W4 2.5 mm² red, 0.5 m, B2:+ to B1:+
run W5 2.5 mm² black, 0.5 m, B2:- to B1:-
`);
    expect(two('B1:+').greatestAmps).toBeCloseTo(full / 0.01 + full / (0.03 + perMetre), 5);
    expect(two('LAMP:+').leastAmps).toBeCloseTo(empty / (0.03 + 7 * perMetre * hot), 6);
  });

  it('of batteries in series are those of both, and of each at its own terminals', () => {
    const { at: two } = faultsOf(`battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
battery B2 lead-acid, 12 V, 80 Ah, internal 10 mΩ
load LAMP 5 A
run W1 2.5 mm² black, 1 m, B1:+ to B2:-
run W2 2.5 mm² red, 1 m, B2:+ to LAMP:+
run W3 2.5 mm² black, 1 m, LAMP:- to B1:-
`);
    expect(two('LAMP:+').greatestAmps).toBeCloseTo((2 * full) / (0.02 + 3 * perMetre), 6);
    expect(two('LAMP:+').leastAmps).toBeCloseTo((2 * empty) / (0.02 + 3 * perMetre * hot), 6);
    expect(two('B1:+').greatestAmps).toBeCloseTo(full / 0.01, 6);
  });

  it('are not known where nothing feeds, and while a length is missing', () => {
    const { at: bare } = faultsOf('load LAMP 5 A\nload OTHER 1 A\nrun W1 2.5 mm² red, 1 m, LAMP:+ to OTHER:+\n');
    expect([bare('LAMP:+').greatestAmps, bare('LAMP:+').leastAmps]).toEqual([undefined, undefined]);
  });

  it('of panels are no more than their short-circuit currents together', () => {
    const { at: sun, device } = faultsOf(`panel P1 and P2 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A
controller U1 mppt, pv 60 V 20 A, output 15 A
fuse F1 15 A, gpv
splice POS
splice NEG
run W1 4 mm² red, 2 m, P1:+ to POS
run W2 4 mm² red, 2 m, P2:+ to POS
run W3 4 mm² black, 2 m, P1:- to NEG
run W4 4 mm² black, 2 m, P2:- to NEG
run W5 4 mm² red, 3 m, POS to F1:in
run W6 4 mm² red, 3 m, F1:out to U1:pv+
run W7 4 mm² black, 3 m, NEG to U1:pv-
`);
    expect(sun('U1:pv+').greatestAmps).toBeCloseTo(12, 2);
    expect(sun('U1:pv+').leastAmps).toBeCloseTo(6, 2);
    // Twelve ampere never blow a fuse of fifteen.
    expect(device('F1')).toMatchObject({ clears: 'never', greatestAmps: expect.closeTo(12, 1) });
  });

  it('never count both sides of a changing relay at once', () => {
    const text = (contact: string) => `battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
relay K1 coil 12 V, contact 20 A
load LAMP 5 A
run W1 2.5 mm² red, 1 m, B1:+ to K1:87
run W2 2.5 mm² black, 1 m, B1:- to K1:87a
run W3 2.5 mm² red, 1 m, K1:30 to LAMP:+
run W4 2.5 mm² black, 1 m, LAMP:- to ${contact}
`;
    expect(faultsOf(text('B1:-')).at('LAMP:+').greatestAmps).toBeCloseTo(full / (0.01 + 3 * perMetre), 5);
  });
});

describe('protective devices', () => {
  it('take what flows for a fault right behind them, and at least one at the far end', () => {
    const { device, at } = faultsOf(lamp('10 A, blade'));
    const f1 = device('F1');
    expect(f1.greatestAmps / (at('F1:out').greatestAmps ?? 0)).toBeCloseTo(1, 4);
    expect((f1.leastAmps ?? 0) / (at('LAMP:+').leastAmps ?? 1)).toBeCloseTo(1, 4);
    expect(f1).toMatchObject({ clears: 'surely', ratedAmps: 10 });
    // Beyond six times its rating I²t stays (6 × 10 A)² × 0.1 s.
    expect(f1.leastSeconds).toBeCloseTo(360 / (f1.leastAmps ?? 1) ** 2, 9);
  });

  it('go by their own points where they are stated', () => {
    const { device } = faultsOf(lamp('10 A, blade, operates 200 % in 1 s to 9 s, operates 1000 % in 0.1 s to 2 s'));
    expect(device('F1')).toMatchObject({ curve: 'stated', clears: 'surely' });
    expect(device('F1').greatestSeconds).toBeCloseTo(20_000 / device('F1').greatestAmps ** 2, 9);
  });

  it('say what is known of their breaking capacity and where it comes from', () => {
    expect(faultsOf(lamp('10 A, blade, breaks 2 kA')).device('F1').breaks).toEqual({ amps: 2000, from: 'stated' });
    expect(faultsOf(lamp('10 A, blade')).device('F1').breaks).toMatchObject({
      amps: 1000,
      from: { status: 'from memory' },
    });
    expect(faultsOf(lamp('10 A')).device('F1').breaks).toBeUndefined();
  });

  it('do not surely clear what is hardly above their rating, and not what is not known of them', () => {
    expect(faultsOf(lamp('10 A')).device('F1')).toMatchObject({ clears: 'not known', curve: undefined });
    // Least at the lamp: 11.6 V over 10 + 57.3 mΩ, 172 A.
    expect(faultsOf(lamp('150 A, bolt-in')).device('F1').clears).toBe('not surely');
    expect(faultsOf(lamp('200 A, bolt-in')).device('F1').clears).toBe('not surely');
    expect(faultsOf(lamp('1000 A, bolt-in')).device('F1').clears).toBe('never');
  });
});

describe('cables in a short circuit', () => {
  it('bear k²S², and what the fuse lets through is less or not', () => {
    const { core } = faultsOf(lamp('10 A, blade'));
    // 115 A√s/mm² of IEC 60364-4-43 table 43A, confirmed.
    expect(core('W2')).toMatchObject({
      withstand: expect.closeTo((115 * 2.5) ** 2, 6),
      letThrough: expect.closeTo(360, 0),
      withstands: true,
      clears: 'surely',
    });
    const slow = faultsOf(lamp('10 A, blade, operates 200 % in 1 s to 60 s, operates 1500 % in 2 s to 4.5 s'));
    expect(slow.core('W2')).toMatchObject({ clears: 'surely', withstands: false });
  });

  it('between battery and first fuse have nothing that would clear', () => {
    const { core } = faultsOf(lamp('10 A, blade'));
    expect(core('W1')).toMatchObject({ clears: 'never', devices: [], withstands: undefined });
  });
});

describe('asking', () => {
  it('is when they are worked out, once', () => {
    const { answers } = answersOf(lamp('10 A, blade'));
    expect(Object.getOwnPropertyDescriptor(answers, 'faults')?.get).toBeTypeOf('function');
    expect(answers.faults).toBe(answers.faults);
    expect(answers.faults.terminals).toBe(answers.faults.terminals);
  });

  it('as JSON gives numbers or null, never what is not a number', () => {
    const json = answersJson(answersOf(lamp('10 A')).answers);
    expect(json.protection.devices).toEqual([
      expect.objectContaining({
        part: 'F1',
        breaksAmps: null,
        curveFrom: null,
        clears: 'not known',
        leastSeconds: null,
      }),
    ]);
    expect(json.faults.terminals['LAMP:+']?.greatestAmps).toBeGreaterThan(100);
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
  });
});

describe('a return that several devices feed', () => {
  const engine = `alternator A1 14.2 V, 70 A, fixed
battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
fuse F1 80 A, bolt-in, 58 V, breaks 5 kA
fuse F2 10 A, blade, 32 V
load LAMP 5 A
chassis G1
run W1 35 mm² red, 1 m, A1:+ to F1:out
run W2 35 mm² red, 0.2 m, B1:+ to F1:in
run W3 35 mm² black, 0.5 m, A1:- to G1
run W4 35 mm² black, 0.5 m, B1:- to G1
run W5 2.5 mm² red, 0.2 m, B1:+ to F2:in
run W6 2.5 mm² red, 4 m, F2:out to LAMP:+
run W7 2.5 mm² black, 1 m, LAMP:- to G1
`;

  it('is not said to be never cleared by the fuse of a source that drives a small part of it', () => {
    const { core } = faultsOf(engine);
    const told = core('W3');
    // F2 clears the fault behind it; what the alternator adds, F1 bears.
    expect(told.leastAmps).toBeGreaterThan(150);
    expect(told.clears).not.toBe('never');
    expect(told.devices.map(({ part }) => part.name)).not.toContain('F1');
  });

  it('keeps its own where that is too large to clear what comes through it', () => {
    const { core } = faultsOf(lamp('1000 A, blade, 32 V, breaks 5 kA'));
    expect(core('W3').clears).toBe('never');
    expect(core('W3').devices.map(({ part }) => part.name)).toEqual(['F1']);
  });
});
