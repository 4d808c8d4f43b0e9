/** What is not said is told once for all that lack the same, and never where another finding stands for it. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';

const lamps = (fuses: readonly string[], more = '') => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
busbar NEG
${fuses
  .map(
    (fuse, i) => `${fuse}
load L${i} 12 W
run IN${i} 1.5 mm² red, 0.1 m, B1:+ to F${i}:in
run OUT${i} 1.5 mm² red, 1 m, F${i}:out to L${i}:+
run BACK${i} 1.5 mm² black, 1 m, L${i}:- to NEG
`,
  )
  .join('')}run W 6 mm² black, 1 m, NEG to B1:-
${more}`;

const told = (text: string) =>
  analyseText(text).findings.flatMap(({ slug, subject, severity }) =>
    slug === 'ratings-unstated' ? [`${subject} ${severity}`] : [],
  );
const bare = (count: number) => Array.from({ length: count }, (_, i) => `fuse F${i} 5 A`);

describe('fuses that say nothing but their ampere', () => {
  it('are told of together, at the first', () => {
    const [found, ...others] = analyseText(lamps(bare(5))).findings;
    expect(others).toEqual([]);
    expect([found?.slug, found?.subject]).toEqual(['ratings-unstated', 'F0']);
    expect(found?.message).toBe(
      'F0, F1, F2 and 2 more do not say their voltage or what they break, so neither is judged: write what is printed on them or in the data sheet, such as 32 V, breaks 1 kA.',
    );
    expect(found?.related.map(({ message }) => message)).toEqual(
      ['F1', 'F2', 'F3', 'F4'].map((name) => `${name} does not say it either`),
    );
  });

  it('are accepted one by one', () => {
    expect(told(lamps(bare(3), 'allow ratings-unstated on F0 "an old fuse"\n'))).toEqual(['F1 advice']);
    expect(told(lamps(bare(2), 'allow ratings-unstated "a sketch"\n'))).toEqual([]);
  });

  it('are not told of where they are not chosen yet, or in no circuit', () => {
    expect(told(lamps(['fuse F0 ? A']))).toEqual([]);
    expect(told(lamps(['fuse F0 5 A, ? V, breaks ? kA']))).toEqual([]);
    expect(told(lamps(['fuse F0 5 A, blade, 32 V'], 'fuse SPARE 5 A\n'))).toEqual([]);
  });

  it('are told of what they lack alone', () => {
    expect(told(lamps(['fuse F0 5 A, blade']))).toEqual([]);
    const [found] = analyseText(lamps(['fuse F0 5 A, cartridge, 125 V'])).findings;
    expect(found?.message).toContain('F0 does not say what it breaks, so that is not judged');
    const mended = applied(
      { 'spec.amps': lamps(['fuse F0 5 A']) },
      analyseText(lamps(['fuse F0 5 A'])).findings[0]?.fixes[0]?.edits ?? [],
    );
    expect(mended['spec.amps']).toContain('fuse F0 5 A, ? V, breaks ? kA\n');
  });

  it.each([
    ['5 A', 'such as blade, 32 V, breaks 1 kA.'],
    ['80 A', 'such as maxi-blade, 32 V, breaks 1 kA.'],
    ['250 A', 'such as bolt-in, 32 V, breaks 2 kA.'],
    ['700 A', 'such as 32 V, breaks 1 kA.'],
  ])('are shown what one of %s usually comes in', (rating, ending) => {
    const found = analyseText(lamps([`fuse F0 ${rating}`])).findings.find(({ slug }) => slug === 'ratings-unstated');
    expect(found?.message.endsWith(ending), found?.message).toBe(true);
  });

  it('are told together whatever their bodies', () => {
    expect(told(lamps(['fuse F0 5 A', 'fuse F1 250 A']))).toEqual(['F0 advice']);
  });

  it('of a statement that is still being written are not told', () => {
    expect(told(lamps(['fuse F0 5 A,']))).toEqual([]);
  });
});
