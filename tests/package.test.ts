import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as core from '@gaugerod/core';
import { expect, test } from 'vitest';

// What npm would publish, asked of npm itself; it fetches nothing for that.
const root = fileURLToPath(new URL('../', import.meta.url));

interface Packed {
  readonly files: readonly { readonly path: string; readonly mode: number }[];
}

function pack(name: string): Packed['files'] {
  // Built already. A shell, because on Windows npm is a script.
  const { stdout } = spawnSync('npm pack --dry-run --json --offline --ignore-scripts', {
    cwd: join(root, 'packages', name),
    encoding: 'utf8',
    shell: true,
  });
  const [packed] = JSON.parse(stdout) as readonly Packed[];
  return packed?.files ?? [];
}

test.each([
  [
    'core',
    [
      ...['dist/index.js', 'dist/index.d.ts', 'dist/pure.js', 'dist/pure.d.ts'],
      ...['dist/bundle/jobs.js', 'dist/pointer.html'],
      ...['schema/results.schema.json', 'schema/surface.schema.json', 'schema/works.schema.json'],
      ...['schema/config.schema.json', 'schema/references.schema.json'],
      'docs/decisions.md',
    ],
  ],
  ['cli', ['bin/gaugerod.js', 'dist/main.js', 'dist/commands/fill.js', 'dist/bundle/main.js']],
])('%s is packed with what it needs, its licence and its README', (name, wanted) => {
  const paths = pack(name).map(({ path }) => path);
  expect(paths).toEqual(
    expect.arrayContaining([...wanted, 'LICENSE', 'README.md', 'package.json']),
  );
  const known =
    /^(dist\/(?!pointer\/).*\.(js|d\.ts)|dist\/pointer\.html|dist\/api\/api\.md|bin\/.*\.js|docs\/.*\.md|schema\/.*\.schema\.json|LICENSE|README\.md|package\.json)$/;
  expect(paths.filter((path) => !known.test(path))).toEqual([]);
});

// Made by the checks and before packing; elsewhere it takes half a minute.
const reference = join(root, 'packages/core/dist/api/api.md');

test(
  "the library's documentation is packed with it: all that it exports, each with its words",
  { timeout: 300_000 },
  () => {
    const built = statSync(join(root, 'packages/core/dist/index.js')).mtimeMs;
    if (!existsSync(reference) || statSync(reference).mtimeMs < built) {
      const { status, stderr } = spawnSync('npm run docs', {
        ...{ cwd: root, encoding: 'utf8', shell: true },
      });
      // Warnings count as errors there; npm has notices of its own.
      expect(status, stderr).toBe(0);
    }
    expect(pack('core').map(({ path }) => path)).toContain('dist/api/api.md');
    const text = readFileSync(reference, 'utf8');
    const sections = new Map(
      text.split(/^### /m).map((part) => [/^[\w$]+/.exec(part)?.[0] ?? '', part] as const),
    );
    const bare = Object.keys(core).filter(
      (name) => !/[a-z]{3} .*\.$/m.test(sections.get(name) ?? ''),
    );
    expect(bare).toEqual([]);
    // What a caller reads it for: shapes, ranges, errors.
    expect(sections.get('roundPeriod')).toMatch(/1 px or more[^]*Throws[^]*RangeError/);
  },
);

test('the packed command can be run: it is executable and says with what', () => {
  const { bin } = JSON.parse(readFileSync(join(root, 'packages/cli/package.json'), 'utf8')) as {
    readonly bin: Readonly<Record<string, string>>;
  };
  const path = bin['gaugerod'] ?? '';
  const text = readFileSync(join(root, 'packages/cli', path), 'utf8');
  expect(text).toMatch(/^#!\/usr\/bin\/env node\n/);
  const mode = pack('cli').find((file) => file.path === path)?.mode ?? 0;
  // Windows keeps no such bits; npm sets them when it installs.
  if (process.platform !== 'win32') expect(mode & 0o111).toBe(0o111);
});
