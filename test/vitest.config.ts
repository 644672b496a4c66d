import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['test/**/*.test.ts'],
    // Real spreadsheet programs on a small machine: generous limits, few at a time.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    maxWorkers: 2,
    pool: 'forks',
  },
});
