import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vitest/config';

const core = fileURLToPath(new URL('packages/core/src/', import.meta.url));
const named = /(?:import|export) (?:type )?\{([^}]*)\} from '([^']*)';/g;

const namesIn = (list: string): string[] =>
  list.split(',').map((name) => name.replace('type ', '').trim());

// Which file each name of the library stands in.
const files = new Map<string, string>();
for (const [, names = '', path = ''] of readFileSync(`${core}pure.ts`, 'utf8').matchAll(named))
  for (const name of namesIn(names)) files.set(name, path.replace('./', core));

// A test takes what it names from where that stands: all of the library takes longer to load than a test to run.
const takeNamed: Plugin = {
  name: 'take-named',
  enforce: 'pre',
  transform(code, id) {
    if (!id.includes('/tests/')) return null;
    return code.replace(named, (whole, names: string, from: string) =>
      from === '@gaugerod/core'
        ? namesIn(names)
            .filter((name) => files.has(name))
            .map((name) => `import { ${name} } from '${files.get(name) ?? ''}';`)
            .join('')
        : whole,
    );
  },
};

// What `npm run mutate` runs: the tests that hold arithmetic, on sources, as those are what is changed.
export default defineConfig({
  plugins: [takeNamed],
  test: {
    setupFiles: ['tests/support/numbers.ts'],
    include: [
      'tests/core/units/*.test.ts',
      'tests/core/measure/measure-{spans,spans-by-hand,rectangle,distance}.test.ts',
      'tests/core/measure/judge-formats.test.ts',
      'tests/core/fill/*.test.ts',
    ],
    isolate: false,
    testTimeout: 300_000,
  },
});
