import { describe, expect, it } from 'vitest';
import { mutateMany, sampleFiles } from './checks.ts';

// In a file of its own so that the samples run beside one another.
describe('samples/spokewagon-as-found.amps', () => {
  it.each([1, 2, 3, 4])('mutated 250 times (seed %i) is read, worked out and told of', { timeout: 120_000 }, (seed) => {
    expect(mutateMany(sampleFiles['spokewagon-as-found.amps'] ?? '', seed, 250)).toBeGreaterThan(200);
  });
});
