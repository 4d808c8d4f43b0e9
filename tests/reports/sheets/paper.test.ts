import { describe, expect, it } from 'vitest';
import { pageOf, papers, pointsOf, unitsOf } from '../../../server/reports/sheets/paper.ts';

describe('paper', () => {
  it.each([
    // ISO 216: 210 × 297 mm and 297 × 420 mm; letter is 8.5 × 11 in. A point is 1/72 in.
    ['a4', 595.28, 841.89],
    ['a3', 841.89, 1190.55],
    ['letter', 612, 792],
  ] as const)('%s has its size in points', (paper, width, height) => {
    const page = pageOf(paper, 'upright');
    expect(pointsOf(page.width)).toBeCloseTo(width, 2);
    expect(pointsOf(page.height)).toBeCloseTo(height, 2);
    expect(pageOf(paper, 'across')).toEqual({ width: page.height, height: page.width });
  });

  it('counts 96 units to the inch', () => {
    expect(unitsOf(25.4)).toBeCloseTo(96, 9);
    expect(papers).toEqual(['a4', 'a3', 'letter']);
  });
});
