/** Where a device must be and how large it may be: the sets against the published rules. */
import { describe, expect, it, test } from 'vitest';
import type { LimitSet } from '../../server/physics/limits/limit-set.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { operatingTime } from '../../server/physics/operating-time.ts';
import { fuseGates } from '../../server/tables/fuse-gates.ts';
import { analyseText } from '../analysed.ts';
import { readTable } from '../reference/read.ts';

const set = (id: string): LimitSet => {
  const found = limitSets.get(id);
  if (found === undefined) throw new Error(`no set ${id}`);
  return found;
};
const rules = readTable('protection-places.csv');
const ruleOf = (source: string) => {
  const row = rules.find((one) => one.source === source);
  if (row === undefined) throw new Error(`no rule ${source}`);
  return { rule: row.rule ?? '', status: row.status ?? '' };
};

describe('lengths and sizes', () => {
  const inch = 0.0254;
  test.each([
    ['33 CFR 183.455(b)(1)', /(\d+) in\b/u, inch, () => set('cfr-33-183').tail(false), 'confirmed'],
    ['33 CFR 183.455(b)(2)', /(\d+) in\b/u, inch, () => set('cfr-33-183').tail(true), 'confirmed'],
    ['33 CFR 183.460', /(\d+) in\b/u, inch, () => set('cfr-33-183').unfusedLength(false), 'from memory'],
    [
      'IEC 60364-4-43 433.2.2 / 434.2.1',
      /(\d+) m\b/u,
      1,
      () => set('iec-60364-5-52').unfusedLength(false),
      'from memory',
    ],
    ['IEC 60364-4-43 433.2.2 / 434.2.1', /(\d+) m\b/u, 1, () => set('iec-60364-5-52').tail(false), 'from memory'],
    ['ISO 10133 8.1', /(\d+) mm\b/u, 0.001, () => set('iso-13297').unfusedLength(false), 'from memory'],
    ['ISO 10133 8.1', /(\d+) mm\b/u, 0.001, () => set('iso-13297').tail(false), 'from memory'],
  ] as const)('%s', (source, pattern, unit, limit, status) => {
    const published = ruleOf(source);
    const { metres, source: cited } = limit();
    expect(metres).toBeCloseTo(Number(pattern.exec(published.rule)?.[1]) * unit, 12);
    expect([published.status, cited.status]).toEqual([status, status]);
  });

  it('33 CFR 183.455(c): 150 % below 50 V; from 50 V on the next standard size, up to 150 %', () => {
    for (const clause of ['(c)(1)', '(c)(2)']) expect(ruleOf(`33 CFR 183.455${clause}`).rule).toContain('150 %');
    const cfr = set('cfr-33-183');
    expect(cfr.permittedDeviceAmps({ amps: 40 }, 48).amps).toBe(60);
    expect(cfr.permittedDeviceAmps({ amps: 45 }, 60)).toEqual({
      amps: 50,
      source: expect.objectContaining({ status: 'confirmed' }),
    });
  });
});

describe('IEC 60364-4-43, 433.1', () => {
  const published = readTable('overload-coordination.csv');

  it('Ib ≤ In ≤ Iz (confirmed), as a spec: 21 A is found on what carries 20 A, 20 A is not', () => {
    expect(published[0]).toMatchObject({ rule: 'Ib <= In <= Iz', status: 'confirmed' });
    const found = (rating: number) =>
      analyseText(`system "Shed" 12 V, limits ours
stock ours limit-set based on iec-60364-5-52, capacity 2.5 mm² 20 A
battery B1 lead-acid, 12 V, 100 Ah
fuse F1 ${rating} A
load LAMP 10 A
run W1 2.5 mm² red, 1 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, F1:out to LAMP:+
run W3 2.5 mm² black, 1 m, LAMP:- to B1:-
`).findings.filter(({ slug, subject }) => slug === 'cable-too-small' && subject === 'W1').length;
    expect([found(20), found(21)]).toEqual([0, 1]);
  });

  test.each(['blade', 'mini-blade', 'maxi-blade', 'bolt-in', 'strip'])(
    'I2 ≤ 1.45 Iz: a %s of In = Iz surely operates at 1.45 times that within the hour',
    (style) => {
      expect(published[1]).toMatchObject({ rule: 'I2 <= 1.45 Iz', status: 'confirmed' });
      expect(operatingTime(fuseGates(style)?.gates ?? [], 1.45).most).toBeLessThanOrEqual(3600);
    },
  );
});
