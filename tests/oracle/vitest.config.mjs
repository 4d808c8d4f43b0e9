import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: new URL('../..', import.meta.url).pathname,
    include: ['tests/oracle/**/*.oracle.ts'],
    globalSetup: ['tests/oracle/setup.ts'],
    testTimeout: 60_000,
    hookTimeout: 180_000,
    reporters: ['default', ['json', { outputFile: 'out/oracle-report.json' }]],
  },
});
