/** Currents for a time: by hand at both ends, by stepping through in between, and what always holds. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  adiabaticTime,
  equivalentAmps,
  secondsBorne,
  serviceI2t,
  timeConstant,
  type Warming,
  warmedShare,
} from '../../server/physics/short-time.ts';

/** BS 7671 table 4D1A, method C: 1.5 mm² carries 20 A at 30 °C, 70 °C insulation. */
const thin: Warming = {
  size: { system: 'mm2', areaMm2: 1.5 },
  ambientCelsius: 30,
  insulationCelsius: 70,
  capacityAmps: 20,
};

describe('a conductor', () => {
  it('stores by hand what the rule of IEC 60364-5-54 annex A says', () => {
    // 226 √ln((234.5 + 70)/(234.5 + 30)) = 84.8 A·√s/mm²; × 1.5 mm², squared: 16 183 A²s; over 20²: 40.5 s.
    const k = 226 * Math.sqrt(Math.log(304.5 / 264.5));
    expect(k).toBeCloseTo(84.8, 1);
    expect(serviceI2t(thin)).toBeCloseTo((k * 1.5) ** 2, 6);
    expect(timeConstant(thin)).toBeCloseTo(40.45, 1);
  });

  it('bears a short current by I²t, a long one by its capacity', () => {
    const i2t = serviceI2t(thin);
    expect((secondsBorne(2000, 0, thin) * 2000 ** 2) / i2t).toBeCloseTo(1, 3);
    expect(secondsBorne(20, 0, thin)).toBe(Number.POSITIVE_INFINITY);
    expect(secondsBorne(20.001, 0, thin)).toBeGreaterThan(300);
    // Twice its capacity: τ ln(4/3).
    expect(secondsBorne(40, 0, thin)).toBeCloseTo(timeConstant(thin) * Math.log(4 / 3), 9);
    // Full already, it bears nothing more.
    expect(secondsBorne(21, 20, thin)).toBe(0);
  });

  it('after 4 s of 40 A is as warm as with 12.3 A for ever', () => {
    const tau = timeConstant(thin);
    const once = equivalentAmps(0, [{ amps: 40, seconds: 4 }], tau);
    expect(once).toBeCloseTo(40 * Math.sqrt(1 - Math.exp(-4 / tau)), 9);
    expect(once).toBeCloseTo(12.3, 1);
  });

  it('that is on half of the time warms by the root of the mean square where it comes quickly', () => {
    const tau = timeConstant(thin);
    expect(equivalentAmps(0, [{ amps: 40, seconds: 0.01, everySeconds: 0.02 }], tau)).toBeCloseTo(40 / Math.SQRT2, 2);
    expect(warmedShare({ seconds: 4, everySeconds: 4 }, tau)).toBe(1);
    expect(warmedShare({ seconds: 4, everySeconds: 1 }, tau)).toBe(1);
    expect(warmedShare({ seconds: 4000 }, tau)).toBe(1);
  });

  it('stepped through with its resistance rising never ends above its greatest temperature', () => {
    // What it stores in J/K and gives off in W/K, a metre of it, by the same k and Iz; R at 20 °C drops out.
    const beta = 234.5;
    const stepped = (
      amps: number,
      seconds: number,
      { ambientCelsius: from, insulationCelsius: to, capacityAmps }: Warming,
    ) => {
      const ohms = (celsius: number) => (beta + celsius) / (beta + 20);
      const stores =
        serviceI2t({ ...thin, ambientCelsius: from, insulationCelsius: to }) /
        ((beta + 20) * Math.log((beta + to) / (beta + from)));
      const gives = (capacityAmps ** 2 * ohms(to)) / (to - from);
      const dt = seconds / 4000;
      let celsius = from;
      for (let i = 0; i < 4000; i++) celsius += (dt * (amps ** 2 * ohms(celsius) - gives * (celsius - from))) / stores;
      return celsius;
    };
    for (const insulationCelsius of [70, 90, 105, 125])
      for (const amps of [21, 25, 40, 80, 300]) {
        const warming = { ...thin, insulationCelsius };
        const seconds = secondsBorne(amps, 0, warming);
        const end = stepped(amps, seconds, warming);
        expect(end).toBeLessThanOrEqual(insulationCelsius + 0.2);
        expect(end).toBeGreaterThan(30 + (insulationCelsius - 30) * 0.9);
      }
  });

  it('of no capacity, or no room for warming, is warm at once', () => {
    expect(timeConstant({ ...thin, capacityAmps: 0 })).toBe(0);
    expect(timeConstant({ ...thin, ambientCelsius: 70 })).toBe(0);
    expect(warmedShare({ seconds: 1 }, 0)).toBe(1);
    expect(equivalentAmps(3, [{ amps: 5, seconds: 1 }], 0)).toBe(5);
    expect(secondsBorne(1, 0, { ...thin, capacityAmps: 0 })).toBe(0);
  });
});

describe('the time that counts for k²S²', () => {
  it('is all of it up to 5 s, less beyond, and never goes back', () => {
    const tau = timeConstant(thin);
    expect([0.1, 4, 5].map((seconds) => adiabaticTime(seconds, tau))).toEqual([0.1, 4, 5]);
    expect(adiabaticTime(10, tau)).toBeCloseTo(tau * (1 - Math.exp(-10 / tau)), 9);
    expect(adiabaticTime(5.01, tau)).toBe(5);
    expect(adiabaticTime(1e9, 0)).toBe(5);
  });
});

describe('always', () => {
  const amps = fc.double({ min: 0, max: 500, noNaN: true });
  const seconds = fc.double({ min: 0.001, max: 1e5, noNaN: true });
  const pulses = fc.array(fc.record({ amps, seconds }), { maxLength: 4 });
  const tau = fc.double({ min: 0.1, max: 2000, noNaN: true });

  it('pulses warm no less than what lasts alone and no more than their greatest for ever', () => {
    fc.assert(
      fc.property(amps, pulses, tau, (lasting, all, t) => {
        const equal = equivalentAmps(lasting, all, t);
        expect(equal).toBeGreaterThanOrEqual(lasting * (1 - 1e-12) - 1e-12);
        expect(equal).toBeLessThanOrEqual(Math.max(lasting, ...all.map((one) => one.amps)) * (1 + 1e-12) + 1e-12);
      }),
    );
  });

  it('longer pulses, more current and shorter pauses warm more; the order of pulses changes nothing', () => {
    fc.assert(
      fc.property(
        amps,
        amps,
        seconds,
        seconds,
        tau,
        fc.double({ min: 1, max: 50, noNaN: true }),
        (i0, i, a, b, t, times) => {
          const of = (one: number, length: number, every?: number) =>
            equivalentAmps(i0, [{ amps: one, seconds: length, everySeconds: every }], t);
          const [short, long] = [Math.min(a, b), Math.max(a, b)];
          expect(of(i, long)).toBeGreaterThanOrEqual(of(i, short) * (1 - 1e-12) - 1e-12);
          expect(of(i * 1.5, short)).toBeGreaterThanOrEqual(of(i, short) * (1 - 1e-12) - 1e-12);
          expect(of(i, short, short * times)).toBeGreaterThanOrEqual(
            of(i, short, short * times * 2) * (1 - 1e-9) - 1e-9,
          );
        },
      ),
    );
    fc.assert(
      fc.property(pulses, tau, (all, t) => {
        expect(equivalentAmps(1, [...all].reverse(), t)).toBeCloseTo(equivalentAmps(1, all, t), 6);
      }),
    );
  });

  it('what a conductor just bears for a time warms it to its capacity', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20.5, max: 2000, noNaN: true }),
        fc.double({ min: 0, max: 19, noNaN: true }),
        (i, i0) => {
          const borne = secondsBorne(i, i0, thin);
          expect(equivalentAmps(i0, [{ amps: i, seconds: borne }], timeConstant(thin))).toBeCloseTo(20, 6);
        },
      ),
    );
  });
});
