/** Fuses: time-current gates and breaking capacities against the published values, and times read between the gates. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { operatingTime } from '../../server/physics/operating-time.ts';
import { usualBreakingCapacity } from '../../server/tables/breaking-capacity.ts';
import { fuseGates } from '../../server/tables/fuse-gates.ts';
import { figure, readTable } from '../reference/read.ts';

const gatesOf = (style: string) => {
  const found = fuseGates(style);
  if (found === undefined) throw new Error(`no gates of ${style}`);
  return found;
};

describe('time-current gates', () => {
  // From memory, as the table itself says.
  it.each([
    ['blade', 'C regular blade'],
    ['mini-blade', 'C regular blade'],
    ['maxi-blade', 'E maxi blade'],
    ['bolt-in', 'bolt-in (ISO 8820-5)'],
    ['strip', 'bolt-in (ISO 8820-5)'],
  ])('of a %s are those of the table', (style, type) => {
    const rows = readTable('fuse-time-current-gates.csv').filter((row) => row.type === type);
    const { gates, source } = gatesOf(style);
    expect(source.status).toBe('from memory');
    expect(gates.map(({ multiple, least, most }) => [Math.round(multiple * 100), least, most])).toEqual(
      rows.map((row) => [
        figure(row, 'percent_of_In'),
        figure(row, 'min_s'),
        row.max_s === '' ? undefined : figure(row, 'max_s'),
      ]),
    );
  });

  it('of bolt-in fuses lie between those of regular and of maxi blades, or are as slow', () => {
    const [quick, bolted] = ['blade', 'bolt-in'].map(gatesOf);
    expect(bolted?.source.status).toBe('from memory');
    expect(gatesOf('strip')).toEqual(bolted);
    for (const multiple of [1.35, 1.5, 2, 3, 5, 8, 20]) {
      const most = operatingTime(bolted?.gates ?? [], multiple).most;
      expect(most).toBeGreaterThanOrEqual(operatingTime(quick?.gates ?? [], multiple).most);
      expect(most).toBeLessThanOrEqual(operatingTime(gatesOf('maxi-blade').gates, multiple).most * (1 + 1e-9));
    }
  });

  it('are not made up for styles of which none are known', () => {
    for (const style of ['cartridge', 'glass', 'class-t', 'gpv', undefined]) expect(fuseGates(style)).toBeUndefined();
  });

  it('at a gate give its times, between two what lies between, beyond the last the same I²t', () => {
    const { gates } = gatesOf('blade');
    expect(operatingTime(gates, 2)).toEqual({ least: expect.closeTo(0.15, 12), most: expect.closeTo(5, 12) });
    // Halfway between 2 and 3.5 in the logarithm of both: √(5 × 0.5).
    expect(operatingTime(gates, Math.sqrt(7)).most).toBeCloseTo(Math.sqrt(2.5), 9);
    expect(operatingTime(gates, 60).most).toBeCloseTo(0.1 / 100, 12);
  });

  it('leave a fuse whole at its rating, and not surely broken below the first time it must break in', () => {
    const { gates } = gatesOf('blade');
    const never = Number.POSITIVE_INFINITY;
    expect(operatingTime(gates, 1)).toEqual({ least: never, most: never });
    expect(operatingTime(gates, 1.05)).toEqual({ least: never, most: never });
    expect(operatingTime(gates, 1.2).most).toBe(never);
    expect(operatingTime(gates, 1.2).least).toBeLessThan(360_000);
    expect(operatingTime([], 10)).toEqual({ least: never, most: never });
  });

  it('more current never takes longer, and never lets more heat through', () => {
    const multiple = fc.double({ min: 1.01, max: 200, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom('blade', 'maxi-blade'), multiple, multiple, (style, a, b) => {
        const { gates } = gatesOf(style);
        const [less, more] = [operatingTime(gates, Math.min(a, b)), operatingTime(gates, Math.max(a, b))];
        expect(more.most).toBeLessThanOrEqual(less.most * (1 + 1e-9));
        expect(more.least).toBeLessThanOrEqual(less.least * (1 + 1e-9));
        expect(more.least).toBeLessThanOrEqual(more.most);
        if (less.most < Number.POSITIVE_INFINITY)
          expect(more.most * Math.max(a, b) ** 2).toBeLessThanOrEqual(less.most * Math.min(a, b) ** 2 * (1 + 1e-9));
      }),
    );
  });
});

describe('usual breaking capacity', () => {
  const inAmps = (written: string) => {
    const [, number, kilo] = /^([\d.]+) (k?)A/u.exec(written) ?? [];
    return Number(number) * (kilo === 'k' ? 1000 : 1);
  };
  it.each([
    ['blade', 'blade, 32 V'],
    ['mini-blade', 'blade, 32 V'],
    ['maxi-blade', 'blade, 32 V'],
    ['bolt-in', 'bolt-in strip / axial (32 V, 58 V)'],
    ['strip', 'bolt-in strip / axial (32 V, 58 V)'],
    ['class-t', 'Class T, d.c. (optional, 125 V)'],
    ['gpv', 'gPV d.c. minimum'],
  ])('of a %s is that of the table, and said to be from memory', (style, item) => {
    const row = readTable('dc-breaking-capacity.csv').find((one) => one.item === item);
    expect(row).toBeDefined();
    expect(usualBreakingCapacity(style, 10)).toMatchObject({
      amps: inAmps(row?.breaking_capacity ?? ''),
      source: { status: 'from memory' },
    });
  });

  it('of glass is 35 A, or ten times its rating', () => {
    expect([1, 3.5, 10].map((rated) => usualBreakingCapacity('glass', rated)?.amps)).toEqual([35, 35, 100]);
  });

  it('is not made up for cartridges and for what says no style', () => {
    expect([usualBreakingCapacity('cartridge', 100), usualBreakingCapacity(undefined, 100)]).toEqual([
      undefined,
      undefined,
    ]);
  });
});
