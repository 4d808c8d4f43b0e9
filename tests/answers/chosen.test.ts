/** What the tool would write for blanks. Capacities: BS 7671 4D1A, clipped, 70 °C: 2.5 mm² 27 A, 4 mm² 37 A. */
import { describe, expect, it } from 'vitest';
import { answersOf } from './spec.ts';

const spec = (
  fuse: string,
  size: string,
  load = '5 A',
  metres = '1 m',
) => `battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
fuse F1 ${fuse}
load LAMP ${load}
run W1 10 mm² red, 0.1 m, B1:+ to F1:in
run W2 ${size} red, ${metres}, F1:out to LAMP:+
run W3 ${size} black, ${metres}, LAMP:- to B1:-
case day LAMP on
`;

describe('a blank size of little current', () => {
  it('is the least that the set lets a conductor be, but for short pieces', () => {
    // ISO 10133 clause 7.7: 1 mm² laid by itself, pieces up to 200 mm let off.
    const small = (metres: string) => answersOf(spec('2 A, blade', '? mm²', '1 A', metres)).chosen('W2');
    expect(small('1 m')).toEqual(['1 mm²']);
    expect(small('0.2 m')).toEqual(['0.5 mm²']);
    expect(small('0.21 m')).toEqual(['1 mm²']);
  });
});

describe('a blank device', () => {
  it('is the smallest standard rating of its style that carries the design current', () => {
    expect(answersOf(spec('? A, blade', '6 mm²')).chosen('F1')).toEqual(['5 A']);
    expect(answersOf(spec('? A, blade', '6 mm²', '5.1 A')).chosen('F1')).toEqual(['7.5 A']);
    // Bolt-in fuses begin at 20 A.
    expect(answersOf(spec('? A, bolt-in', '6 mm²')).chosen('F1')).toEqual(['20 A']);
    // 60 W at 10.5 V: 5.714 A.
    expect(answersOf(spec('? A, blade', '6 mm²', '60 W')).chosen('F1')).toEqual(['7.5 A']);
  });

  it('is none where the cable it protects does not bear it', () => {
    // 0.5 mm² bears less than 11 A; the next rating above 10.5 A is 15 A.
    expect(answersOf(spec('? A, blade', '0.5 mm²', '10.5 A')).chosen('F1')).toEqual([]);
  });

  it('is none where nothing is known of its load', () => {
    expect(answersOf(spec('? A, blade', '6 mm²', '? A')).chosen('F1')).toEqual([]);
  });

  it('in a way of a fusebox is told with its place', () => {
    const text = spec('20 A', '6 mm²')
      .replace('F1:out to LAMP:+', 'F1:out to FB:in')
      .concat('fusebox FB 2 ways\n    way 1 fuse ? A\n    way 2 fuse 5 A\nrun W4 6 mm² red, 1 m, FB:1 to LAMP:+\n');
    const [chosen] = answersOf(text).answers.chosen;
    expect([chosen?.subject, chosen?.clause, chosen?.text]).toEqual(['FB', 'way', '5 A']);
    expect(text.slice(chosen?.place.span.start, chosen?.place.span.end)).toBe('? A');
  });

  it('on the panel side has the factor over the short-circuit current', () => {
    const made = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A
controller U1 mppt, pv 50 V 20 A, output 20 A
fuse F1 ? A
run W1 4 mm² red, 2 m, P1:+ to F1:in
run W2 4 mm² red, 2 m, F1:out to U1:pv+
run W3 4 mm² black, 2 m, P1:- to U1:pv-
run W4 10 mm² red, 1 m, U1:bat+ to B1:+
run W5 10 mm² black, 1 m, U1:bat- to B1:-
`);
    // 1.25 × 6 A = 7.5 A.
    expect(made.chosen('F1')).toEqual(['7.5 A']);
  });
});

describe('a blank device before a load that starts hard', () => {
  const fused = (style: string, load: string) => answersOf(spec(`? A${style}`, '6 mm²', load));

  it('holds that by its curve, and says so', () => {
    // A blade holds 1.35 times its rating for 0.75 s (ISO 8820-3): 15 A are the first that hold 20 A so long, at 1.33.
    expect(fused(', blade', '5 A').chosen('F1')).toEqual(['5 A']);
    const held = fused(', blade', '5 A, surge 20 A for 0.7 s');
    expect(held.chosen('F1')).toEqual(['15 A']);
    expect(held.answers.chosen[0]?.why).toBe(
      'the smallest standard rating for its design current of 5.0 A that holds what its loads take when they start',
    );
    // A maxi-blade holds twice its rating for 4 s.
    expect(fused(', maxi-blade', '5 A, surge 40 A for 4 s').chosen('F1')).toEqual(['20 A']);
    expect(fused(', maxi-blade', '5 A, surge 40 A for 4.1 s').chosen('F1')).toEqual(['25 A']);
  });

  it('is as its load asks where no curve is known, or not how long the start lasts', () => {
    expect(fused(', cartridge', '5 A, surge 60 A for 1 s').chosen('F1')).toEqual(
      fused(', cartridge', '5 A').chosen('F1'),
    );
    expect(fused(', blade', '5 A, surge 60 A').chosen('F1')).toEqual(['5 A']);
  });
});

describe('a blank switch', () => {
  it('is the smallest usual rating that its circuit cannot exceed', () => {
    const text = spec('15 A', '6 mm²')
      .replace('F1:out to LAMP:+', 'F1:out to S1:1')
      .concat('switch S1 1 pole, ? A dc\nrun W4 6 mm² red, 1 m, S1:2 to LAMP:+\n');
    expect(answersOf(text).chosen('S1')).toEqual(['16 A']);
  });
});

describe('a blank size', () => {
  it('is the smallest that its device and its current allow', () => {
    // 4D1A, clipped: 2.5 mm² 27 A, 4 mm² 37 A.
    expect(answersOf(spec('25 A', '? mm²')).chosen('W2')).toEqual(['2.5 mm²']);
    expect(answersOf(spec('30 A', '? mm²')).chosen('W2')).toEqual(['4 mm²']);
    expect(answersOf(spec('30 A', '? mm²')).chosen('W3')).toEqual(['4 mm²']);
  });

  it('suits a blank fuse in its turn', () => {
    const made = answersOf(spec('? A, blade', '? mm²', '26 A'));
    expect([made.chosen('F1'), made.chosen('W2')]).toEqual([['30 A'], ['4 mm²']]);
  });

  it('is larger where the drop asks for it, no more than needed', () => {
    // 5 % of 12 V = 0.6 V; 5 A over 2 × 8 m: at 20 °C 2.5 mm² loses 0.638 V, 4 mm² (4.95 mΩ/m) 0.396 V.
    const made = answersOf(spec('10 A', '? mm²', '5 A', '8 m'));
    expect(made.load('LAMP').dropPercent).toBeLessThanOrEqual(5);
    const sizes = [made.chosen('W2')[0], made.chosen('W3')[0]].sort();
    // One of the two in 4 mm² is enough: 0.319 + 0.198 V and a little for warmth.
    expect(sizes).toEqual(['2.5 mm²', '4 mm²']);
    expect(made.answers.chosen.find(({ text }) => text === '4 mm²')?.why).toMatch(/LAMP does not lose too much/);
  });

  it('is large enough that its loads can be fed at all', () => {
    const made = answersOf(spec('20 A', '? mm²', '150 W', '20 m'));
    expect(made.in('day').converged).toBe(true);
    expect(made.load('LAMP').dropPercent).toBeLessThanOrEqual(5);
  });

  it('is as its current asks where no size lets the loads be fed', () => {
    // 5 kW at 12 V would be 417 A: 10 mΩ in the battery give 3.6 kW at most, 12² / 4R.
    const made = answersOf(`${spec('10 A', '? mm²')}fuse F2 30 A
load OVEN 5 kW
run W4 6 mm² red, 1 m, B1:+ to F2:in
run W5 6 mm² red, 1 m, F2:out to OVEN:+
run W6 6 mm² black, 1 m, OVEN:- to B1:-
case full all loads on
`);
    expect([made.in('day').converged, made.in('full').converged]).toEqual([true, false]);
    expect([made.chosen('W2'), made.chosen('W3')]).toEqual([['1 mm²'], ['1 mm²']]);
    expect(made.answers.chosen.map(({ why }) => why).join()).not.toMatch(/can be fed/);
  });

  it('leaves capacity and resistance of the run open', () => {
    const made = answersOf(spec('25 A', '? mm²'));
    expect([made.core('W2').capacity, made.core('W2').ohms, made.in('day').core('W2').capacityAmps]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
    // But the case is worked out with it: 5 A over 7.98 mΩ and warmth.
    expect(made.in('day').core('W2').dropVolts).toBeGreaterThan(5 * 0.00798);
  });

  it('is in the unit that the blank asks for', () => {
    // 33 CFR table 5, 75 °C column: 14 AWG carries 15 A; below 50 V its device may be 150 %.
    const text = spec('20 A', '? AWG').replace('10 mm² red', '6 AWG red');
    expect(answersOf(text).chosen('W2')[0]).toMatch(/^\d+ AWG$/);
  });

  it('in stock is the greatest that any run taking it needs, and stands in the stock', () => {
    const text = `stock wire cable ? mm²
${spec('30 A', '= wire').replace(/ = wire red/, ' = wire red')}fuse F2 60 A
load FAN 50 A
run W4 25 mm² red, 0.1 m, B1:+ to F2:in
run W5 = wire red, 1 m, F2:out to FAN:+
run W6 25 mm² black, 1 m, FAN:- to B1:-
`;
    const made = answersOf(text);
    expect(new Set(['W2', 'W3', 'W5'].flatMap((run) => made.chosen(run)))).toEqual(new Set(['10 mm²']));
    const [chosen] = made.answers.chosen.filter(({ subject }) => subject === 'W2');
    expect(text.slice(chosen?.place.span.start, chosen?.place.span.end)).toBe('? mm²');
  });

  it('is none where no standard size is enough', () => {
    expect(answersOf(spec('2000 A', '? mm²')).chosen('W2')).toEqual([]);
  });
});

it('parts declared alike share one blank: the greatest counts for both', () => {
  const made = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
fuse F1 and F2 ? A, blade
load LAMP 4 A
load FAN 9 A
run W1 6 mm² red, 0.1 m, B1:+ to F1:in
run W2 6 mm² red, 0.1 m, B1:+ to F2:in
run W3 6 mm² red, 1 m, F1:out to LAMP:+
run W4 6 mm² red, 1 m, F2:out to FAN:+
run W5 6 mm² black, 1 m, LAMP:- to B1:-
run W6 6 mm² black, 1 m, FAN:- to B1:-
`);
  expect([made.chosen('F1'), made.chosen('F2')]).toEqual([['10 A'], ['10 A']]);
});
