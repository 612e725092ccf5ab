import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const source = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  resolve: {
    // One copy of the library, and so one TextureError, whichever door a test comes in by.
    alias: [
      { find: '@gaugerod/core/jobs', replacement: source('packages/core/src/jobs.ts') },
      { find: '@gaugerod/core/pure', replacement: source('packages/core/src/pure.ts') },
      { find: '@gaugerod/core', replacement: source('packages/core/src/index.ts') },
      { find: '@gaugerod/fixtures', replacement: source('fixtures/src/index.ts') },
    ],
  },
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/support/setup.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
