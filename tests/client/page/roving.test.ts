/** Arrow keys go along the wires, and everything can be reached. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { findByName } from '../../../client/picture/page/finding-names.ts';
import { actionOf, keyHelp } from '../../../client/picture/page/keys.ts';
import { coresAt, type Direction, readingOrder, step } from '../../../client/picture/page/roving.ts';
import { inProcessEngine } from '../../../server/reports/picture/elk-engine.ts';
import { layOut } from '../../../server/reports/picture/lay-out.ts';
import { pictureOf } from '../../../server/reports/picture/picture-of.ts';
import type { DrawnElement } from '../../../server/reports/picture/scene.ts';
import { analyseText } from '../../analysed.ts';
import { lamp } from '../../session/specs.ts';

async function drawn(text: string): Promise<ReadonlyMap<string, DrawnElement>> {
  const stock = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
  return (await layOut(pictureOf(analyseText(text, stock)), inProcessEngine())).elements;
}

const directions: readonly Direction[] = ['left', 'right', 'up', 'down'];

describe('an arrow key', () => {
  it('follows a wire from the battery to the lamp', async () => {
    const elements = await drawn(lamp());
    const way = ['part:B1'];
    for (let i = 0; i < 4; i += 1) way.push(step(elements, way.at(-1) ?? '', 'right', way.at(-2)) ?? '');
    expect(way).toEqual(['part:B1', 'core:W1/0', 'part:F1', 'core:W2/0', 'part:LAMP']);
    expect(step(elements, 'core:W2/0', 'left', 'part:LAMP')).toBe('part:F1');
  });

  it('goes up and down along the cores of the part it came from', async () => {
    const elements = await drawn(lamp());
    const part = elements.get('part:LAMP');
    if (part?.is !== 'part') throw new Error('no lamp');
    const [first, second] = coresAt(elements, part);
    if (first === undefined || second === undefined) throw new Error('no cores');
    expect(step(elements, first.id, 'down', part.id)).toBe(second.id);
    expect(step(elements, second.id, 'up', part.id)).toBe(first.id);
  });

  it('leads in the Spokewagon from any part to every other', async () => {
    const elements = await drawn(readFileSync('samples/spokewagon.amps', 'utf8'));
    const start = readingOrder(elements)[0] ?? '';
    // A state is an element and the part one came from.
    const seen = new Set<string>();
    const waiting: (readonly [string, string | undefined])[] = [[start, undefined]];
    for (const [id, came] of waiting) {
      for (const direction of directions) {
        const next = step(elements, id, direction, came);
        if (next === undefined) continue;
        const from = elements.get(id)?.is === 'part' ? id : came;
        const key = `${next} ${from}`;
        if (seen.has(key)) continue;
        seen.add(key);
        waiting.push([next, from]);
      }
    }
    const reached = new Set(waiting.map(([id]) => id));
    const missed = [...elements.values()].filter(({ is, id }) => is === 'part' && !reached.has(id));
    expect(missed.map(({ id }) => id)).toEqual([]);
  });

  it('leads nowhere from what is not there', async () => {
    const elements = await drawn(lamp());
    for (const direction of directions) expect(step(elements, 'part:NOBODY', direction)).toBeUndefined();
  });
});

describe('in order', () => {
  it('every part, core and box comes once, passages not at all', async () => {
    const elements = await drawn(readFileSync('samples/spokewagon.amps', 'utf8'));
    const order = readingOrder(elements);
    expect(new Set(order).size).toBe(order.length);
    const wanted = [...elements.values()].filter(({ is }) => is !== 'passage').map(({ id }) => id);
    expect([...order].sort()).toEqual(wanted.sort());
  });
});

describe('finding by name', () => {
  it('gives the exact name first, then what begins so, then titles', async () => {
    const elements = await drawn(readFileSync('samples/spokewagon.amps', 'utf8'));
    const names = (words: string) => findByName(elements.values(), words).map(({ name }) => name);
    expect(names('f1')[0]).toBe('F1');
    expect(names('W48')).toEqual(['W48 black', 'W48 red']);
    expect(names('roof isolator')[0]).toBe('Q1');
    expect(names('  ')).toEqual([]);
    expect(names('no such thing')).toEqual([]);
  });
});

describe('keys', () => {
  const plain = { shiftKey: false, ctrlKey: false, metaKey: false, altKey: false };

  it('leave those with Control, Alt or Command to the editor', () => {
    for (const held of ['ctrlKey', 'metaKey', 'altKey'])
      for (const key of ['ArrowLeft', '0', 'm', 'Enter'])
        expect(actionOf({ ...plain, key, [held]: true })).toBeUndefined();
    expect(actionOf({ ...plain, key: 'Tab' })).toBeUndefined();
    expect(actionOf({ ...plain, key: 'q' })).toBeUndefined();
  });

  it('go, and with Shift move the drawing', () => {
    expect(actionOf({ ...plain, key: 'ArrowLeft' })).toEqual({ does: 'go', direction: 'left' });
    expect(actionOf({ ...plain, key: 'ArrowLeft', shiftKey: true })).toEqual({ does: 'pan', direction: 'left' });
  });

  it('are all told in the help', () => {
    const told = keyHelp.map(([keys]) => keys).join(' ');
    for (const key of ['Page down', 'Home', 'End', 'Space', 'Enter', 'T', 'M', '/', '+', '0', 'Escape', '?', 'Shift'])
      expect(told).toContain(key);
  });
});
