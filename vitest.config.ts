import { configDefaults, defineConfig } from 'vitest/config';

// They ask how much memory their process takes, or change what all of it shares.
const alone = ['tests/core/fuzz.test.ts', 'tests/core/read/refusals.test.ts'];

// Tests run what was built, as those do who install it: one copy of the library, whichever door a test comes in
// by, and no module of it is made anew for each file of tests.
const built = [{ find: /^(.*\/packages\/(?:core|cli))\/src\//, replacement: '$1/dist/' }];

export default defineConfig({
  resolve: { alias: built },
  test: {
    globalSetup: ['tests/support/is-built.ts'],
    setupFiles: ['tests/support/setup.ts'],
    server: { deps: { external: [/\/(?:core|cli|fixtures)\/dist\//] } },
    // Of two processors the runner would use one.
    maxWorkers: '100%',
    // A test takes seconds; on a machine that is busy with much else, many times that.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'shared',
          include: ['tests/**/*.test.ts'],
          exclude: [...configDefaults.exclude, ...alone],
          // The library and what it loads take a second to load, 200 times.
          isolate: false,
        },
      },
      { extends: true, test: { name: 'alone', include: alone } },
    ],
  },
});
