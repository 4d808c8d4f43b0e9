/** When the picture is drawn again while somebody types. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { longest, quiet, Refresher } from '../../server/session/refresher.ts';

describe('a picture while somebody types', () => {
  let drawn: number[];
  let refresher: Refresher;

  beforeEach(() => {
    vi.useFakeTimers();
    drawn = [];
    refresher = new Refresher(
      async () => {
        drawn.push(Date.now());
      },
      () => Date.now(),
    );
  });
  afterEach(() => {
    refresher.stop();
    vi.useRealTimers();
  });

  /** A key every so often, for so long. */
  async function type(every: number, milliseconds: number): Promise<void> {
    for (let passed = 0; passed < milliseconds; passed += every) {
      refresher.changed();
      await vi.advanceTimersByTimeAsync(every);
    }
  }

  it('is drawn after 100 ms of quiet', async () => {
    const pressed = Date.now();
    refresher.changed();
    await vi.advanceTimersByTimeAsync(quiet - 1);
    expect(drawn).toEqual([]);
    await vi.advanceTimersByTimeAsync(1);
    expect(drawn).toEqual([pressed + 100]);
  });

  it('is drawn at least every 400 ms of continuous typing, and once more when it ends', async () => {
    const began = Date.now();
    await type(30, 3000);
    await vi.advanceTimersByTimeAsync(quiet);
    const gaps = drawn.map((at, i) => at - (drawn[i - 1] ?? began));
    expect(drawn.length).toBeGreaterThanOrEqual(3000 / longest);
    // The next press after a drawing begins to count.
    expect(Math.max(...gaps)).toBeLessThanOrEqual(400 + 30);
    const last = drawn.at(-1);
    await vi.advanceTimersByTimeAsync(10 * longest);
    expect(drawn.at(-1)).toBe(last);
  });

  it('is drawn by itself one at a time, and again for what came meanwhile', async () => {
    let [working, most] = [0, 0];
    const slow = new Refresher(
      async () => {
        working += 1;
        most = Math.max(most, working);
        await new Promise((resolve) => setTimeout(resolve, 250));
        drawn.push(Date.now());
        working -= 1;
      },
      () => Date.now(),
    );
    slow.changed();
    await vi.advanceTimersByTimeAsync(quiet + 50);
    slow.changed();
    await vi.advanceTimersByTimeAsync(2000);
    expect(most).toBe(1);
    expect(drawn).toHaveLength(2);
    slow.stop();
    slow.changed();
    await vi.advanceTimersByTimeAsync(2000);
    expect(drawn).toHaveLength(2);
  });
});
