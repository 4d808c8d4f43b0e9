/** Zoom, pan and fit: points stay where they should, and the drawing is never lost. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  around,
  fitted,
  inSight,
  kept,
  largest,
  pan,
  smallest,
  type View,
  zoom,
} from '../../../client/picture/page/viewport.ts';

const size = fc.record({ width: fc.integer({ min: 1, max: 5000 }), height: fc.integer({ min: 1, max: 5000 }) });
const window = fc.record({ width: fc.integer({ min: 60, max: 3000 }), height: fc.integer({ min: 60, max: 3000 }) });
const view: fc.Arbitrary<View> = fc.record({
  x: fc.integer({ min: -5000, max: 5000 }),
  y: fc.integer({ min: -5000, max: 5000 }),
  scale: fc.double({ min: smallest, max: largest, noNaN: true }),
});

describe('the window on the drawing', () => {
  it('fits all of it, in the middle', () => {
    fc.assert(
      fc.property(size, window, (drawing, room) => {
        const { x, y, scale } = fitted(drawing, room);
        expect(scale).toBeGreaterThan(0);
        if (scale > smallest) {
          expect(x).toBeGreaterThanOrEqual(-0.01);
          expect(y).toBeGreaterThanOrEqual(-0.01);
        }
        expect(x + (scale * drawing.width) / 2).toBeCloseTo(room.width / 2, 6);
        expect(y + (scale * drawing.height) / 2).toBeCloseTo(room.height / 2, 6);
      }),
    );
  });

  it('keeps the point under the pointer while it zooms', () => {
    fc.assert(
      fc.property(view, fc.double({ min: 0.1, max: 10, noNaN: true }), (before, by) => {
        const at = { x: 200, y: 150 };
        const after = zoom(before, by, at);
        expect(after.scale).toBeGreaterThanOrEqual(smallest);
        expect(after.scale).toBeLessThanOrEqual(largest);
        expect((at.x - after.x) / after.scale).toBeCloseTo((at.x - before.x) / before.scale, 4);
        expect((at.y - after.y) / after.scale).toBeCloseTo((at.y - before.y) / before.scale, 4);
      }),
    );
  });

  it('is the same view when what is wanted is in sight, and else shows it', () => {
    const here: View = { x: 0, y: 0, scale: 1 };
    const room = { width: 400, height: 300 };
    expect(inSight(here, { x: 100, y: 100, width: 40, height: 40 }, room)).toBe(here);
    for (const piece of [
      { x: 900, y: 20, width: 40, height: 40 },
      { x: -300, y: 900, width: 60, height: 30 },
    ]) {
      const { x, y } = inSight(here, piece, room);
      expect(x + piece.x).toBeGreaterThanOrEqual(0);
      expect(x + piece.x + piece.width).toBeLessThanOrEqual(room.width);
      expect(y + piece.y).toBeGreaterThanOrEqual(0);
      expect(y + piece.y + piece.height).toBeLessThanOrEqual(room.height);
    }
  });

  it('never loses the drawing', () => {
    fc.assert(
      fc.property(view, size, window, fc.integer(), fc.integer(), (from, drawing, room, dx, dy) => {
        const { x, y, scale } = kept(pan(from, dx, dy), drawing, room);
        expect(x).toBeLessThanOrEqual(Math.max(room.width - 40, 40 - scale * drawing.width));
        expect(y).toBeLessThanOrEqual(Math.max(room.height - 40, 40 - scale * drawing.height));
        expect(x + scale * drawing.width).toBeGreaterThanOrEqual(39.99);
        expect(y + scale * drawing.height).toBeGreaterThanOrEqual(39.99);
      }),
    );
  });

  it('holds several pieces at once', () => {
    expect(around([])).toBeUndefined();
    expect(
      around([
        { x: 10, y: 20, width: 5, height: 5 },
        { x: 0, y: 40, width: 2, height: 10 },
      ]),
    ).toEqual({ x: 0, y: 20, width: 15, height: 30 });
  });
});
