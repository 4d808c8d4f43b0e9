import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/e2e/**/*.e2e.ts'],
    globalSetup: ['tests/e2e/setup.ts'],
    // Two cores: one editor at a time, or each waits for the other.
    fileParallelism: false,
    testTimeout: 180_000,
    hookTimeout: 300_000,
    reporters: ['default', ['json', { outputFile: 'out/e2e-report.json' }]],
  },
});
