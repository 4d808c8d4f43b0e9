/** What a device lets through at most, whatever flows: no current on its curve gives more within the time asked about. */
import { describe, expect, it } from 'vitest';
import { curveOf, mostLetThrough } from '../../server/answers/clearing.ts';
import { operatingTime } from '../../server/physics/operating-time.ts';
import { analyseText } from '../analysed.ts';

const seconds = 5;

describe.each(['blade', 'maxi-blade', 'bolt-in'])('a fuse of style %s', (style) => {
  const part = analyseText(`fuse F1 20 A, ${style}\n`).model.parts.get('F1');
  const curve = part === undefined ? undefined : curveOf(part);

  it('lets no more through than its bound, and comes near it', () => {
    if (curve === undefined) throw new Error('no curve');
    const bound = mostLetThrough(curve, 20, seconds);
    const passed = Array.from({ length: 4000 }, (_, i) => 1.05 * 1.002 ** i).flatMap((multiple) => {
      const { most } = operatingTime(curve.gates, multiple);
      return most <= seconds ? [(20 * multiple) ** 2 * most] : [];
    });
    expect(Math.max(...passed)).toBeLessThanOrEqual(bound * (1 + 1e-9));
    expect(Math.max(...passed)).toBeGreaterThan(0.97 * bound);
  });
});
