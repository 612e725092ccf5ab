import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const read = (path: string): string => readFileSync(new URL(`../${path}`, import.meta.url), 'utf8');

test('the lockfile installs sharp on Linux, macOS and Windows', () => {
  // npm may lock only the platform it ran on: https://github.com/npm/cli/issues/4828
  const { packages } = JSON.parse(read('package-lock.json')) as {
    packages: Record<string, object>;
  };
  for (const platform of [
    'linux-x64',
    'linux-arm64',
    'linuxmusl-x64',
    'darwin-arm64',
    'darwin-x64',
    'win32-x64',
  ]) {
    expect(Object.keys(packages)).toContain(`node_modules/@img/sharp-${platform}`);
  }
});

test('the top level holds the named folders and nothing else of ours', () => {
  const entries = readdirSync(new URL('../', import.meta.url), { withFileTypes: true });
  const folders = entries
    .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.'))
    .map((entry) => entry.name)
    .filter((name) => !['node_modules', 'out', 'coverage'].includes(name));
  expect(folders.sort()).toEqual(['fixtures', 'packages', 'tests']);
});

test('both packages share a version, and the command asks for exactly that core', () => {
  const manifest = (path: string) =>
    JSON.parse(read(path)) as { version: string; dependencies: Record<string, string> };
  const core = manifest('packages/core/package.json');
  const cli = manifest('packages/cli/package.json');
  expect(cli.version).toBe(core.version);
  expect(cli.dependencies['@gaugerod/core']).toBe(core.version);
});

test('every dependency is pinned', () => {
  for (const path of [
    'package.json',
    'packages/core/package.json',
    'packages/cli/package.json',
    'fixtures/package.json',
  ]) {
    const { dependencies = {}, devDependencies = {} } = JSON.parse(read(path)) as Record<
      'dependencies' | 'devDependencies',
      Record<string, string> | undefined
    >;
    for (const version of Object.values({ ...dependencies, ...devDependencies })) {
      expect(version).toMatch(/^\d+\.\d+\.\d+$/);
    }
  }
});

// What changes files, by the names under which Node has it.
const changing =
  /^(?:open|writeFile|appendFile|createWriteStream|copyFile|cp|truncate|ftruncate|rename|link|symlink|write|writev)(?:Sync)?$/;

// Every output goes through one writer; beside it there are the lock, and what opens to read.
const writers: Readonly<Record<string, readonly string[]>> = {
  'read/read-bytes.ts': ['open'],
  'write/place-files.ts': ['copyFileSync', 'linkSync', 'open', 'renameSync'],
  'write/while-locked.ts': ['link', 'rename', 'writeFile'],
  'write/write-atomically.ts': ['open'],
};

test('one writer writes all files, and what is read is opened to read', () => {
  const src = new URL('../packages/core/src/', import.meta.url);
  const found: Record<string, readonly string[]> = {};
  for (const name of readdirSync(src, { recursive: true, encoding: 'utf8' })) {
    if (!name.endsWith('.ts')) continue;
    const text = readFileSync(new URL(name.replaceAll('\\', '/'), src), 'utf8');
    // All of it by one name would hide what is called.
    expect(text, name).not.toMatch(/^import (?:\* as )?\w+ from '(?:node:)?fs/m);
    // Pictures are encoded to memory or to a stream of the writer's.
    expect(text, name).not.toContain('.toFile(');
    const used = [...text.matchAll(/^import \{([^}]*)\} from 'node:fs(?:\/promises)?'/gm)]
      .flatMap(([, names = '']) => names.split(',').map((one) => one.trim()))
      .filter((one) => changing.test(one));
    if (used.length > 0) found[name.replaceAll('\\', '/')] = used.toSorted();
  }
  expect(found).toEqual(writers);
  const reader = readFileSync(new URL('read/read-bytes.ts', src), 'utf8');
  expect(reader).toMatch(/open\(path, constants\.O_RDONLY \|/);
});
