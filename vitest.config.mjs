import { readFileSync } from 'node:fs';
import { defineConfig } from 'vitest/config';

/** A spec that is imported is its text, as in the bundles. */
const specsAsText = {
  name: 'specs-as-text',
  load: (id) => (id.endsWith('.amps') ? `export default ${JSON.stringify(readFileSync(id, 'utf8'))};` : undefined),
};

export default defineConfig({
  plugins: [specsAsText],
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**', 'node_modules/**'],
    setupFiles: ['tests/random.ts'],
    testTimeout: 60_000,
    reporters: ['default', ['json', { outputFile: 'out/unit-report.json' }]],
  },
});
