import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fieldOf } from '../../../server/reports/sheets/frame.ts';
import { pageOf, papers } from '../../../server/reports/sheets/paper.ts';
import { overlap, tilingOf } from '../../../server/reports/sheets/tiles.ts';

const whole = (width: number, height: number) => ({ width, height, svg: '' });

describe('a drawing over pages', () => {
  it('goes on one page as it lies best, and small ones grow little', () => {
    const wide = tilingOf(whole(900, 400), 'a4');
    expect([wide.columns, wide.rows, wide.page]).toEqual([1, 1, pageOf('a4', 'across')]);
    const high = tilingOf(whole(400, 900), 'a4');
    expect([high.columns, high.rows, high.page]).toEqual([1, 1, pageOf('a4', 'upright')]);
    expect(tilingOf(whole(100, 50), 'a4').scale).toBeCloseTo(1.15);
  });

  it('goes over as few pages as leave its letters legible', () => {
    const field = fieldOf(pageOf('a4', 'across'));
    expect(tilingOf(whole(field.width / 0.76, 300), 'a4').tiles).toHaveLength(1);
    expect(tilingOf(whole(field.width / 0.74, 300), 'a4').tiles).toHaveLength(2);
    expect(tilingOf(whole(2800, 1450), 'a3').tiles.length).toBeLessThan(tilingOf(whole(2800, 1450), 'a4').tiles.length);
  });

  it('covers the whole, with each page overlapping the next by what is marked', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 9000 }),
        fc.integer({ min: 20, max: 7000 }),
        fc.constantFrom(...papers),
        (width, height, paper) => {
          const { tiles, scale, columns, rows, field } = tilingOf(whole(width, height), paper);
          expect(tiles).toHaveLength(columns * rows);
          expect(Math.min(...tiles.map(({ x }) => x))).toBeLessThanOrEqual(0.01);
          expect(Math.min(...tiles.map(({ y }) => y))).toBeLessThanOrEqual(0.01);
          expect(Math.max(...tiles.map((tile) => tile.x + tile.width))).toBeGreaterThanOrEqual(width - 0.01);
          expect(Math.max(...tiles.map((tile) => tile.y + tile.height))).toBeGreaterThanOrEqual(height - 0.01);
          for (const tile of tiles) {
            expect(tile.width * scale).toBeCloseTo(field.width, 3);
            const next = tiles.find(({ column, row }) => column === tile.column + 1 && row === tile.row);
            if (next !== undefined) expect((tile.x + tile.width - next.x) * scale).toBeCloseTo(overlap, 3);
            const below = tiles.find(({ column, row }) => column === tile.column && row === tile.row + 1);
            if (below !== undefined) expect((tile.y + tile.height - below.y) * scale).toBeCloseTo(overlap, 3);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('prints no empty page', () => {
    const { tiles, columns, rows } = tilingOf({ ...whole(3000, 2000), occupied: (x, y) => x < 10 && y < 10 }, 'a4');
    expect(columns * rows).toBeGreaterThan(4);
    expect(tiles).toHaveLength(1);
    expect(tilingOf({ ...whole(3000, 2000), occupied: () => false }, 'a4').tiles).toHaveLength(1);
  });

  it('makes a drawing that is larger than any number of pages smaller', () => {
    const { tiles, scale } = tilingOf(whole(100_000, 80_000), 'a4');
    expect(scale).toBeLessThan(0.75);
    expect(tiles.length).toBeLessThanOrEqual(144);
  });
});
