import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**', 'node_modules/**'],
    setupFiles: ['tests/random.ts'],
    testTimeout: 60_000,
    reporters: ['default', ['json', { outputFile: 'out/unit-report.json' }]],
  },
});
