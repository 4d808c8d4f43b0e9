/** The scale of shades: even, and told apart by everyone. */
import { describe, expect, it } from 'vitest';
import { shadeColours, shadeOf, shadeSteps, shadeStyle, shadeWidths } from '../../../server/reports/picture/shades.ts';

type Triple = readonly [number, number, number];

function linear(hex: string): Triple {
  const channel = (at: number) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

/** Oklab: distances in it are near to those that people see. */
function oklab([r, g, b]: Triple): Triple {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}

/** Machado, Oliveira and Fernandes, 2009, severity 1.0; a grey scale for those who see none. */
const eyes: Readonly<Record<string, readonly Triple[]>> = {
  usual: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
  none: [
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
  ],
};

const seenBy = (rows: readonly Triple[], [r, g, b]: Triple) =>
  rows.map((row) => Math.max(0, row[0] * r + row[1] * g + row[2] * b)) as unknown as Triple;
const apart = (a: Triple, b: Triple) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

describe('shades', () => {
  it.each(Object.entries(shadeColours))('on %s ground go one way in lightness, in even steps', (_, colours) => {
    const lightness = colours.map((hex) => oklab(linear(hex))[0]);
    const steps = lightness.slice(1).map((value, i) => value - (lightness[i] ?? 0));
    expect(new Set(steps.map(Math.sign)).size).toBe(1);
    const sizes = steps.map(Math.abs);
    expect(Math.min(...sizes)).toBeGreaterThan(0.06);
    expect(Math.max(...sizes) / Math.min(...sizes)).toBeLessThan(1.9);
  });

  it.each(Object.keys(eyes))('are told apart by %s eyes', (eye) => {
    for (const colours of Object.values(shadeColours)) {
      const seen = colours.map((hex) => oklab(seenBy(eyes[eye] ?? [], linear(hex))));
      for (const [i, one] of seen.entries())
        for (const other of seen.slice(i + 1)) expect(apart(one, other), `${eye} ${i}`).toBeGreaterThan(0.05);
    }
  });

  it('are told by width too, and have a colour and a label each', () => {
    expect([...shadeWidths].sort((a, b) => a - b)).toEqual(shadeWidths);
    for (const colours of Object.values(shadeColours)) expect(colours).toHaveLength(shadeWidths.length);
    for (const steps of Object.values(shadeSteps)) {
      expect(steps).toHaveLength(shadeWidths.length);
      expect(new Set(steps.map(({ label }) => label)).size).toBe(steps.length);
    }
    expect(shadeStyle({ colours: 'variables' })).toContain('var(--diagram-shade-5');
    expect(shadeStyle({ colours: 'dark' })).not.toContain('var(');
  });

  it.each([
    [0, 0],
    [19.99, 0],
    [20.01, 1],
    [100, 4],
    [100.01, 5],
    [400, 5],
  ])('%d %% of its capacity is step %d', (share, step) => {
    expect(shadeOf(share, 'capacity')).toBe(step);
  });

  it.each([
    [0.1, 0],
    [0.6, 2],
    [3.2, 5],
  ])('%d %% lost is step %d', (lost, step) => {
    expect(shadeOf(lost, 'drop')).toBe(step);
  });
});
