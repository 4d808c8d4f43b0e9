/** How much is kept of what was worked out before is told to the cache. */
import { expect, it } from 'vitest';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { usualKeeping, usualPacking } from '../../server/sections/sections.ts';
import { sourceOf, vanUri } from '../bench/vans.ts';

const lamp = (metres: number) => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 5 A, blade, 32 V
load LAMP 12 W
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, ${metres} m, F1:out to LAMP:+
run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-
`;

/** Whether a wording is answered from what was worked out of it, after so many others. */
function isKnownAfter(others: number, cache = new AnalysisCache()): boolean {
  const read = (metres: number) => analyse(vanUri, sourceOf(lamp(metres)), cache).answers;
  const first = read(1);
  for (let other = 0; other < others; other += 1) read(2 + other);
  return read(1) === first;
}

const keeping = (wordings: number) => new AnalysisCache(usualPacking, { ...usualKeeping, wordings });

it('so many wordings of a spec are kept, the last one among them', () => {
  expect(isKnownAfter(usualKeeping.wordings - 1)).toBe(true);
  expect(isKnownAfter(usualKeeping.wordings)).toBe(false);
  expect(isKnownAfter(0, keeping(1))).toBe(true);
  expect(isKnownAfter(1, keeping(1))).toBe(false);
  expect(isKnownAfter(1, keeping(2))).toBe(true);
});
