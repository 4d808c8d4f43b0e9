/** θ = θa + (θmax − θa)(I/Iz)², at most θmax; and the resistance at it, settled together with the current. */
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { conductorCelsius } from '../../server/physics/conductors.ts';
import { answersOf } from '../answers/spec.ts';

describe('conductor temperature', () => {
  test.each([
    // ambient, greatest, I, Iz, θ
    [30, 70, 0, 27, 30],
    [30, 70, 13.5, 27, 40],
    [30, 70, 27, 27, 70],
    [30, 70, 54, 27, 70],
    [30, 70, -13.5, 27, 40],
    [50, 90, 10, 20, 60],
    [-10, 90, 10, 20, 15],
    // No capacity: θmax, whatever flows.
    [30, 60, 0, 0, 60],
    [70, 70, 5, 0, 70],
    [80, 70, 0, 0, 70],
  ])('in %d °C, at most %d °C, %d A of %d A: %d °C', (ambient, most, amps, capacity, celsius) => {
    expect(conductorCelsius(ambient, most, amps, capacity)).toBeCloseTo(celsius, 12);
  });

  it('is never above θmax nor below the place', () => {
    const figures = fc.record({
      ambient: fc.integer({ min: -30, max: 120 }),
      most: fc.integer({ min: 60, max: 150 }),
      amps: fc.integer({ min: -400, max: 400 }),
      capacity: fc.integer({ min: 0, max: 300 }),
    });
    fc.assert(
      fc.property(figures, ({ ambient, most, amps, capacity }) => {
        const celsius = conductorCelsius(ambient, most, amps, capacity);
        expect(celsius).toBeLessThanOrEqual(most);
        if (ambient < most) expect(celsius).toBeGreaterThanOrEqual(ambient);
      }),
    );
  });
});

describe('in a spec', () => {
  const lamp = (load: string, size: string, { insulation = '', ambient = 30 } = {}) =>
    answersOf(`system "Shed" 12 V, ambient ${ambient} °C
battery B1 lead-acid, 12 V, 80 Ah, internal 1 mΩ
load LAMP ${load}
run W1 ${size} red, 4 m${insulation}, B1:+ to LAMP:+
run W2 ${size} black, 4 m${insulation}, LAMP:- to B1:-
case now LAMP on
`).in('now');

  test.each([
    // size, insulation, Iz by BS 7671 4D1A and 4E1A method C, θmax, R20 by IEC 60228 class 5 in Ω/km, load in ampere
    ['1 mm²', '', 15.5, 70, 19.5, 5],
    ['1.5 mm²', '', 20, 70, 13.3, 10],
    ['2.5 mm²', '', 27, 70, 7.98, 27],
    ['2.5 mm²', ', 90 °C', 34, 90, 7.98, 20],
    ['4 mm²', '', 37, 70, 4.95, 60],
    ['6 mm²', ', 105 °C', 59 * Math.sqrt(75 / 60), 105, 3.3, 40],
  ])('%s%s of Iz %d A, θmax %d °C, %d Ω/km, at %d A', (size, insulation, capacity, most, ohmsPerKilometre, amps) => {
    const core = lamp(`${amps} A`, size, { insulation }).core('W1');
    const celsius = Math.min(most, 30 + (most - 30) * (amps / capacity) ** 2);
    expect(core.capacityAmps).toBeCloseTo(capacity, 9);
    expect(core.celsius).toBeCloseTo(celsius, 6);
    // Drop and loss are by the warm resistance: I × R20 × (1 + 0.00393 (θ − 20)).
    const drop = amps * 0.004 * ohmsPerKilometre * (1 + 0.00393 * (celsius - 20));
    expect(core.dropVolts).toBeCloseTo(drop, 9);
    expect(core.watts).toBeCloseTo(amps * drop, 8);
  });

  it('settles together with a load of constant power', () => {
    // By repeated substitution here: R(θ(I)), V = (E + √(E² − 4 R P))/2, I = P/V.
    const found = lamp('150 W', '2.5 mm²').core('W1');
    const [e, r20, watts] = [12, 0.00798 * 4, 150];
    let amps = watts / e;
    for (let step = 0; step < 200; step++) {
      const celsius = Math.min(70, 30 + 40 * (amps / 27) ** 2);
      const ohms = 0.001 + 2 * r20 * (1 + 0.00393 * (celsius - 20));
      amps = watts / ((e + Math.sqrt(e * e - 4 * ohms * watts)) / 2);
    }
    expect(found.amps).toBeCloseTo(amps, 7);
    expect(found.celsius).toBeCloseTo(30 + 40 * (amps / 27) ** 2, 6);
  });

  it('where the place is too warm for its insulation is θmax, with no capacity', () => {
    const core = lamp('5 A', '2.5 mm²', { ambient: 75 }).core('W1');
    expect([core.celsius, core.capacityAmps]).toEqual([70, 0]);
  });
});
