import { describe, expect, it } from 'vitest';
import { mutateMany, sampleFiles } from './checks.ts';

// The two vans have files of their own, so that the samples run beside one another.
const apart = ['spokewagon.amps', 'spokewagon-as-found.amps'];
const names = Object.keys(sampleFiles).filter((name) => !apart.includes(name));

describe.each(names)('samples/%s', (name) => {
  it.each([1, 2, 3, 4])('mutated 250 times (seed %i) is read, worked out and told of', { timeout: 120_000 }, (seed) => {
    expect(mutateMany(sampleFiles[name] ?? '', seed, 250)).toBeGreaterThan(200);
  });
});

describe('the samples', () => {
  it('are all mutated', () => {
    expect(Object.keys(sampleFiles)).toEqual(expect.arrayContaining(apart));
    expect(names).toContain('orchard-cabin.amps');
  });
});
