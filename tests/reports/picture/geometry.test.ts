/** Nothing overlaps, nothing is cut, every core ends where it should: on every sample and on systems of 5 to 150 parts. */
import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drawSvg } from '../../../server/reports/picture/draw-svg.ts';
import { drawn, drawnText, sample, samples } from './drawn.ts';
import { crossingsOf, faults, sorted } from './geometry.ts';
import { systemOf } from './systems.ts';

const table = 'tests/reports/picture/crossings.json';
const golden = (name: string) => `tests/reports/picture/golden/${name.replace('.amps', '.svg')}`;
const renews = process.env.RENEW_GOLDEN !== undefined;

/** How often cores cross, by drawing: it may only get better. `RENEW_GOLDEN=1` writes it and the golden drawings anew. */
const known = JSON.parse(readFileSync(table, 'utf8')) as Record<string, number>;
const counted: Record<string, number> = {};

function count(name: string, crossings: number): void {
  counted[name] = crossings;
  if (renews) {
    writeFileSync(table, `${JSON.stringify({ ...known, ...counted }, undefined, 2)}\n`);
    return;
  }
  expect(known[name], `${name} is not in ${table}`).toBeDefined();
  expect(crossings).toBeLessThanOrEqual(known[name] ?? 0);
}

/** Most are small, as most vans are; the last has 150 parts. */
const sizes = Array.from({ length: 50 }, (_, i) => Math.round(5 + 145 * (i / 49) ** 3));

describe.each(samples)('the diagram of samples/%s', (name) => {
  it('is sound, and as it was', async () => {
    const drawing = await drawn(sample(name));
    expect(faults(drawing)).toEqual([]);
    const { parts, cores } = sorted(drawing);
    expect(parts.length).toBe(drawing.graph.parts.length);
    expect(cores.length).toBe(drawing.graph.cores.length);
    count(name, crossingsOf(drawing));
    const svg = drawSvg(drawing, { colours: 'light' });
    if (renews) writeFileSync(golden(name), svg);
    expect(svg).toBe(readFileSync(golden(name), 'utf8'));
  });
});

describe('the diagram of a system made by chance', () => {
  it.each(sizes.map((size, i) => [size, i + 1]))('of %i parts is sound (%i)', async (size, seed) => {
    const drawing = await drawnText(systemOf(size, seed));
    expect(faults(drawing)).toEqual([]);
    const { parts, cores } = sorted(drawing);
    expect(parts.length).toBeGreaterThanOrEqual(size);
    expect(cores.length).toBe(drawing.graph.cores.length);
    count(`${size} parts, ${seed}`, crossingsOf(drawing));
  });
});

describe('places', () => {
  it('are regions round what stands at them when they are asked for', async () => {
    const drawing = await drawn(sample('spokewagon.amps'), { places: true });
    expect(faults(drawing)).toEqual([]);
    const { groups } = sorted(drawing);
    const places = groups.filter(({ is }) => is === 'place').map(({ name }) => name);
    expect(places.sort()).toEqual(['ENGINE', 'GARAGE', 'ROOF']);
  });
});

describe('a box', () => {
  it('is as wide as its words, however little stands in it', async () => {
    const named = 'enclosure DOOR-BOX "Beside the sliding door of the sleeping end" plastic, IP44\n';
    const drawing = await drawnText(`system "Shed" 12 V\n${named}fuse F1 5 A, in DOOR-BOX\n`);
    expect(faults(drawing)).toEqual([]);
    const [box] = sorted(drawing).groups;
    expect(box?.texts.map(({ text }) => text)).toContain('Beside the sliding door of the sleeping end · plastic, IP44');
  });
});
