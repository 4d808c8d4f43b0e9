/** Sections are kept as they were before an edit, and what they were read from is let go of: a text is long, and each edit has its own. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import { AnalysisCache, analyse } from '../../server/analysis.ts';
import { sourceOf, vanUri } from '../bench/vans.ts';

const shed = (n: number, watts: number) => `battery B-${n} lead-acid, 12 V, 80 Ah, internal 8 mΩ
fuse F-${n} 15 A, blade, 32 V, breaks 1 kA
load LAMP-${n} ${watts} W
run W-${n}1 2.5 mm² red, 0.2 m, B-${n}:+ to F-${n}:in
run W-${n}2 2.5 mm² red, 4 m, F-${n}:out to LAMP-${n}:+
run W-${n}3 2.5 mm² black, 4 m, LAMP-${n}:- to B-${n}:-
`;

/** A million letters that say nothing. */
const notes = `${`# ${'looked at and left alone '.repeat(4)}\n`.repeat(10_000)}`;

const sheds = (watts: number) => `system "Two sheds" 12 V\n${shed(1, 10)}${shed(2, watts)}${notes}`;

/** Bytes in use when all that nobody holds is cleared away. */
function inUse(): number {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  collect();
  collect();
  return process.memoryUsage().heapUsed;
}

it('are not held by sections that are kept for an undo', () => {
  const cache = new AnalysisCache({ least: 0, small: 0, most: 1 });
  const read = (watts: number) => analyse(vanUri, sourceOf(sheds(watts)), cache).findings.length;
  const found = read(12);
  const before = inUse();
  for (let watts = 13; watts < 25; watts++) expect(read(watts)).toBe(found);
  expect(cache.sectionsOf(vanUri).counted.workedOut).toBe(14);
  // Twelve texts of two bytes a letter would be twenty-four million.
  expect(inUse() - before).toBeLessThan(6e6);
});
