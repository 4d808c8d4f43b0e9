/** Who drives what which way, and what flows for a time: small circuits worked out by hand. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answersJson } from '../../server/answers/answers-json.ts';
import { analyseText } from '../analysed.ts';
import { answersOf } from './spec.ts';

function told(text: string) {
  const { directions } = answersJson(answersOf(text).answers);
  return {
    core(run: string) {
      const found = directions.cores.find((one) => one.run === run);
      if (found === undefined) throw new Error(`no ${run}`);
      return found;
    },
    contact(part: string) {
      const found = directions.contacts.find((one) => one.part === part);
      if (found === undefined) throw new Error(`no ${part}`);
      return found;
    },
  };
}

const charged = `battery B1 lead-acid, 12 V, 100 Ah, internal 10 mΩ
charger U1 12 V, 18 A, from mains
fuse F1 30 A
load LAMP 5 A
run W1 6 mm² red, 1 m, U1:out+ to F1:out
run W2 6 mm² red, 0.1 m, F1:in to B1:+
run W3 6 mm² black, 1 m, U1:out- to B1:-
fuse F2 10 A
run W4 6 mm² red, 0.1 m, B1:+ to F2:in
run W5 2.5 mm² red, 1 m, F2:out to LAMP:+
run W6 2.5 mm² black, 1 m, LAMP:- to B1:-
case shore all sources on
case dark LAMP on
`;

describe('direction', () => {
  it('of a charger’s cable is both: what it gives, and what the battery drives into a fault', () => {
    const spec = told(charged);
    expect(spec.core('W1')).toMatchObject({
      from: 'U1:out+',
      to: 'F1:out',
      isReturn: false,
      forward: { sources: ['U1'], lastingAmps: expect.closeTo(18, 6), inrushAmps: null },
      backward: { sources: ['B1'], lastingAmps: 0, inrushAmps: null },
      shortTime: [],
      heatingAmps: expect.closeTo(18, 6),
    });
    expect(spec.contact('F1')).toMatchObject({
      from: 'F1:in',
      to: 'F1:out',
      forward: { sources: ['B1'], lastingAmps: 0 },
      backward: { sources: ['U1'], lastingAmps: expect.closeTo(18, 6) },
    });
  });

  it('of a load’s feed is one, from all that feed it, and its return comes home to each', () => {
    const spec = told(charged);
    expect(spec.core('W5')).toMatchObject({
      forward: { sources: ['B1', 'U1'], lastingAmps: expect.closeTo(5, 6) },
      backward: { sources: [], lastingAmps: 0 },
    });
    expect(spec.core('W6')).toMatchObject({
      isReturn: true,
      forward: { sources: ['B1', 'U1'] },
      backward: { sources: [] },
    });
    // Out of the charger's minus comes what the battery drives there, home to it goes what it gives itself.
    expect(spec.core('W3')).toMatchObject({ forward: { sources: ['B1'] }, backward: { sources: ['U1'] } });
  });

  it('is one through a diode', () => {
    const spec = told(`alternator A1 14.2 V, 70 A
battery B1 and B2 lead-acid, 12 V, 100 Ah
diode D1 120 A, 2 outputs
run W1 25 mm² red, 1 m, A1:+ to D1:in
run W2 25 mm² red, 1 m, D1:out to B1:+
run W3 25 mm² red, 1 m, D1:out2 to B2:+
run W4 25 mm² black, 1 m, A1:- to B1:-
run W5 25 mm² black, 1 m, B2:- to B1:-
`);
    expect(spec.core('W1')).toMatchObject({ forward: { sources: ['A1'] }, backward: { sources: [] } });
    expect(spec.core('W2')).toMatchObject({ forward: { sources: ['A1'] }, backward: { sources: ['B1'] } });
    expect(spec.contact('D1')).toMatchObject({ forward: { sources: ['A1'] }, backward: { sources: [] } });
  });

  it('is both on a ring, but not back to where its source comes in', () => {
    const spec = told(`battery B1 lead-acid, 12 V, 100 Ah
fuse F1 20 A
splice NEAR and LEFT and RIGHT
load LAMP 4 A
run W1 6 mm² red, 0.1 m, B1:+ to F1:in
run W2 6 mm² red, 1 m, F1:out to NEAR
run W3 2.5 mm² red, 1 m, NEAR to LEFT
run W4 2.5 mm² red, 1 m, NEAR to RIGHT
run W5 2.5 mm² red, 1 m, LEFT to RIGHT
run W6 2.5 mm² red, 1 m, LEFT to LAMP:+
run W7 2.5 mm² black, 1 m, LAMP:- to B1:-
case lit LAMP on
`);
    expect(spec.core('W3')).toMatchObject({ forward: { sources: ['B1'] }, backward: { sources: [] } });
    expect(spec.core('W5')).toMatchObject({ forward: { sources: ['B1'] }, backward: { sources: ['B1'] } });
    // 4 A over one length and over two: 8/3 A and 4/3 A, the latter from RIGHT to LEFT.
    expect(spec.core('W3').forward.lastingAmps).toBeCloseTo(8 / 3, 2);
    expect(spec.core('W5').backward.lastingAmps).toBeCloseTo(4 / 3, 2);
    expect(spec.core('W5').forward.lastingAmps).toBe(0);
  });

  it('of panels in parallel is both, each driven back by the others', () => {
    const spec = told(`panel P1 and P2 120 W, voc 23 V, isc 6.9 A, vmp 19 V, imp 6.3 A
splice JP and JN
controller U1 mppt, pv 100 V 30 A, output 20 A
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 30 A
run W1 6 mm² red, 2 m, P1:+ to JP
run W2 6 mm² red, 2 m, P2:+ to JP
run W3 6 mm² black, 2 m, P1:- to JN
run W4 6 mm² black, 2 m, P2:- to JN
run W5 6 mm² red, 2 m, JP to U1:pv+
run W6 6 mm² black, 2 m, JN to U1:pv-
run W7 6 mm² red, 1 m, U1:bat+ to F1:out
run W8 6 mm² red, 0.1 m, F1:in to B1:+
run W9 6 mm² black, 1 m, U1:bat- to B1:-
`);
    expect(spec.core('W1')).toMatchObject({
      forward: { sources: ['P1'], lastingAmps: 6.9 },
      backward: { sources: ['P2'], lastingAmps: 6.9 },
    });
    expect(spec.core('W5')).toMatchObject({
      forward: { sources: ['P1', 'P2'], lastingAmps: 13.8 },
      backward: { sources: [], lastingAmps: 0 },
    });
  });
});

/** A load on a battery, with the clauses given; its feed is 1.5 mm², which carries 20 A at 30 °C (BS 7671 table 4D1A). */
const single = (load: string, fuse = 'fuse F1 100 A', more = '') => `battery B1 lead-acid, 12 V, 100 Ah
${fuse}
load L1 ${load}
run W1 35 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 1 m, F1:out to L1:+
run W3 35 mm² black, 1 m, L1:- to B1:-
${more}`;

/** 226² ln((234.5 + 70)/(234.5 + 30)) × 1.5² / 20². */
const tau = (226 ** 2 * Math.log(304.5 / 264.5) * 1.5 ** 2) / 400;

describe('what flows for a time', () => {
  it('is told with its time and its share of the day, and not as lasting', () => {
    const core = told(single('40 A, for 4 s, 2 min/day')).core('W2');
    expect(core.forward).toEqual({ sources: ['B1'], lastingAmps: 0, inrushAmps: null });
    expect(core.shortTime).toEqual([
      {
        is: 'runs',
        loads: ['L1'],
        amps: expect.closeTo(40, 6),
        seconds: 4,
        duty: expect.closeTo(120 / 86_400, 12),
        case: 'loads-only',
      },
    ]);
    const every = 4 / (120 / 86_400);
    const share = (1 - Math.exp(-4 / tau)) / (1 - Math.exp(-every / tau));
    expect(core.heatingAmps).toBeCloseTo(40 * Math.sqrt(share), 6);
  });

  it('comes on top of what lasts in the same conductor', () => {
    const text = `battery B1 lead-acid, 12 V, 100 Ah
fuse F1 100 A
splice J
load LAMP 12 A
load HORN 30 A, for 4 s
load WINCH 20 A, for 40 s
run W1 35 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 1 m, F1:out to J
run W4 35 mm² red, 1 m, J to LAMP:+
run W5 35 mm² red, 1 m, J to HORN:+
run W6 35 mm² red, 1 m, J to WINCH:+
run W7 35 mm² black, 1 m, LAMP:- to B1:-
run W8 35 mm² black, 1 m, HORN:- to B1:-
run W9 35 mm² black, 1 m, WINCH:- to B1:-
`;
    const core = told(text).core('W2');
    expect(core.forward.lastingAmps).toBeCloseTo(12, 6);
    expect(core.shortTime.map(({ loads, amps, seconds }) => [loads.join(), Math.round(amps), seconds])).toEqual([
      ['WINCH', 32, 40],
      ['HORN', 62, 4],
    ]);
    const share = (seconds: number) => 1 - Math.exp(-seconds / tau);
    expect(core.heatingAmps).toBeCloseTo(
      Math.sqrt(12 ** 2 + (32 ** 2 - 12 ** 2) * share(40) + (62 ** 2 - 32 ** 2) * share(4)),
      4,
    );
  });

  it('is what a load takes when it starts, by itself, in watts at its lowest voltage', () => {
    const core = told(single('24 W, surge 120 W for 3 s, lowest 10 V')).core('W2');
    expect(core.forward).toEqual({
      sources: ['B1'],
      lastingAmps: expect.closeTo(2.4, 9),
      inrushAmps: expect.closeTo(12, 6),
    });
    expect(core.shortTime).toEqual([
      { is: 'starts', loads: ['L1'], amps: expect.closeTo(12, 6), seconds: 3, duty: null, case: 'loads-only' },
    ]);
    expect(core.heatingAmps).toBeCloseTo(Math.sqrt(2.4 ** 2 + (12 ** 2 - 2.4 ** 2) * (1 - Math.exp(-3 / tau))), 6);
  });

  it('is an inverter’s surge through its efficiency', () => {
    const spec = told(
      single('5 A').replace('load L1 5 A', 'inverter L1 200 W, surge 450 W for 2 s, efficiency 90 %, lowest 10 V'),
    );
    expect(spec.core('W2').forward.inrushAmps).toBeCloseTo(450 / 0.9 / 10, 6);
    expect(spec.core('W2').forward.lastingAmps).toBeCloseTo(200 / 0.9 / 10, 6);
  });

  it('does not warm what is not known to last', () => {
    const core = told(single('5 A, surge 100 A')).core('W2');
    expect(core.shortTime).toMatchObject([{ is: 'starts', seconds: null, amps: expect.closeTo(100, 6) }]);
    expect(core.heatingAmps).toBeCloseTo(5, 6);
  });

  it('is in the case that has the load on, and nowhere else', () => {
    const text = single('5 A, surge 50 A for 1 s', 'fuse F1 100 A', 'case night L1 off\ncase day L1 on\n');
    expect(told(text).core('W2').shortTime).toMatchObject([{ case: 'day' }]);
    expect(told(text.replace('case day L1 on\n', '')).core('W2').shortTime).toEqual([]);
  });

  it('is a starter motor in no case at all, if none turns it', () => {
    const spec = told(single('150 A, cranking, for 8 s'));
    expect(spec.core('W2').shortTime).toEqual([
      { is: 'cranks', loads: ['L1'], amps: expect.closeTo(150, 6), seconds: 8, duty: null, case: 'L1 cranking' },
    ]);
    expect(spec.core('W2').heatingAmps).toBeNull();
    expect(spec.core('W2').forward).toMatchObject({ lastingAmps: 0, inrushAmps: expect.closeTo(150, 6) });
  });

  it('splits over two ways as all current does', () => {
    const spec = told(`battery B1 lead-acid, 12 V, 100 Ah
fuse F1 100 A
splice J
load L1 10 A, surge 40 A for 1 s
run W1 35 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, F1:out to J
run W3 2.5 mm² red, 3 m, F1:out to J
run W4 35 mm² red, 1 m, J to L1:+
run W5 35 mm² black, 1 m, L1:- to B1:-
case lit L1 on, conductors at 20 °C
`);
    expect(spec.core('W2').forward.inrushAmps).toBeCloseTo(30, 6);
    expect(spec.core('W3').forward.inrushAmps).toBeCloseTo(10, 6);
  });
});

describe('always', () => {
  const load = fc.record({
    amps: fc.integer({ min: 1, max: 60 }),
    kind: fc.constantFrom('', ', for 4 s', ', for 90 s, 1 h/day', ', surge 90 A for 2 s', ', surge 70 A'),
  });
  const spec = (loads: readonly { amps: number; kind: string }[]) =>
    `battery B1 lead-acid, 12 V, 100 Ah
fuse F1 500 A
busbar POS
run W0 70 mm² red, 0.1 m, B1:+ to F1:in
run W1 4 mm² red, 1 m, F1:out to POS
${loads.map(({ amps, kind }, i) => `load L${i} ${amps} A${kind}\nrun P${i} 4 mm² red, 1 m, POS to L${i}:+\nrun N${i} 70 mm² black, 1 m, L${i}:- to B1:-`).join('\n')}
`;

  it('a core warms no less than by what lasts and no more than by the most that flows, for all of which times are said', () => {
    fc.assert(
      fc.property(fc.array(load, { minLength: 1, maxLength: 4 }), (loads) => {
        const core = told(spec(loads)).core('W1');
        const most = [core.forward.lastingAmps, ...core.shortTime.map(({ amps }) => amps)];
        expect(core.heatingAmps).toBeGreaterThanOrEqual(core.forward.lastingAmps * (1 - 1e-6));
        expect(core.heatingAmps).toBeLessThanOrEqual(Math.max(...most) * (1 + 1e-6));
      }),
      { numRuns: 25 },
    );
  });

  it('what is asked of a conductor is the same whatever order its loads are said in', () => {
    fc.assert(
      fc.property(fc.array(load, { minLength: 2, maxLength: 4 }), (loads) => {
        const text = spec(loads);
        const lines = text.trim().split('\n');
        const [one, other] = [text, [...lines].reverse().join('\n')].map(
          (each) =>
            answersJson(analyseText(`${each}\n`).answers).directions.cores.find(({ run }) => run === 'W1')?.heatingAmps,
        );
        expect(other).toBeCloseTo(one ?? Number.NaN, 6);
      }),
      { numRuns: 15 },
    );
  });
});
