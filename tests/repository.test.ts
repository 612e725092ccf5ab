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
