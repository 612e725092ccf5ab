import { existsSync, readdirSync, readFileSync } from 'node:fs';
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
  'write/while-locked.ts': ['linkSync', 'renameSync', 'writeFileSync'],
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

interface Locked {
  readonly license?: string;
  readonly link?: boolean;
  readonly resolved?: string;
  readonly hasInstallScript?: boolean;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly optionalDependencies?: Readonly<Record<string, string>>;
}

// What is installed with the command and the library, for every platform.
function installedWith(): readonly (readonly [path: string, entry: Locked])[] {
  const { packages } = JSON.parse(read('package-lock.json')) as {
    packages: Readonly<Record<string, Locked>>;
  };
  const found = new Map<string, Locked>();
  const follow = (path: string): void => {
    const entry = packages[path];
    if (entry === undefined || found.has(path)) return;
    if (entry.link === true) {
      follow(entry.resolved ?? '');
      return;
    }
    found.set(path, entry);
    for (const name of Object.keys({ ...entry.dependencies, ...entry.optionalDependencies })) {
      // As Node looks for it: in the folder itself, then in those above.
      const above = path.split('/node_modules/').map((_, at, all) => all.slice(0, at + 1));
      const folders = ['', ...above.map((parts) => `${parts.join('/node_modules/')}/`)].reverse();
      const where = folders.find((folder) => `${folder}node_modules/${name}` in packages);
      expect(where, `${name} of ${path}`).toBeDefined();
      follow(`${where ?? ''}node_modules/${name}`);
    }
  };
  follow('packages/core');
  follow('packages/cli');
  return [...found];
}

test('what is installed with the product is free to use: permissive, or LGPL where it is libvips', () => {
  const permissive = ['MIT', 'ISC', '0BSD', 'BSD-3-Clause', 'Apache-2.0', 'CC0-1.0'];
  const all = installedWith();
  expect(all.length).toBeGreaterThan(60);
  const others = all.filter(([path, { license }]) => {
    const said = license?.split(' AND ') ?? [];
    // Says so in a file of its own: MIT.
    if (path === 'node_modules/png-js') return !read(`${path}/LICENSE`).startsWith('MIT License');
    const isVips = /^node_modules\/@img\/sharp-(libvips|win32|wasm32)/.test(path);
    const allowed = isVips ? [...permissive, 'LGPL-3.0-or-later'] : permissive;
    return said.length === 0 || !said.every((one) => allowed.includes(one));
  });
  expect(others.map(([path, { license }]) => `${path}: ${license ?? 'says nothing'}`)).toEqual([]);
});

test('nothing that is installed runs a script of its own', () => {
  expect(installedWith().filter(([, { hasInstallScript }]) => hasInstallScript)).toEqual([]);
  for (const name of ['core', 'cli']) {
    const { scripts } = JSON.parse(read(`packages/${name}/package.json`)) as {
      scripts: Record<string, string>;
    };
    expect(Object.keys(scripts)).toEqual(['prepack']);
  }
});

const sources = readdirSync(new URL('../packages', import.meta.url), {
  recursive: true,
  encoding: 'utf8',
})
  .map((path) => path.replaceAll('\\', '/'))
  .filter((path) => /^(core|cli)\/src\/.*\.ts$/.test(path))
  .map((path) => [path, read(`packages/${path}`)] as const);

test.each([
  ['reaches a network', /from '(node:)?(http2?|https|net|tls|dgram|dns)(\/promises)?'|\bfetch\(/],
  // By `join` and URLs, which know other systems' strokes and drives.
  [
    'joins paths by hand',
    /\$\{(folder|dir|dirname|path|root|home)\w*\}\/|(folder|dir|path) \+ '\//,
  ],
])('nothing in the product %s', (_, pattern) => {
  expect(sources.length).toBeGreaterThan(300);
  expect(sources.filter(([, text]) => pattern.test(text)).map(([path]) => path)).toEqual([]);
});

test('nothing but Node itself is started, from one place', () => {
  const starting = sources.filter(([, text]) => /child_process|\bshell: true/.test(text));
  expect(starting.map(([path]) => path)).toEqual(['core/src/read/decode-apart.ts']);
  const text = starting[0]?.[1] ?? '';
  expect(text).toMatch(/import \{ type ChildProcessByStdio, spawn \} from 'node:child_process'/);
  expect(text.match(/\bspawn\(.*/g)).toEqual(['spawn(process.execPath, [entry], {']);
});

test('each promise of README names a test that there is', () => {
  const [, table = ''] = /\n\| promise [^]*?\n\| -.*\n([^]*?)\n\n/.exec(read('README.md')) ?? [];
  const rows = table.split('\n').map((line) => line.split(' | ').at(-1) ?? '');
  expect(rows.length).toBeGreaterThan(10);
  for (const row of rows) {
    const [, path = '', title = ''] = /`(tests\/[^`]+)`: ([^|]*)\|$/.exec(row) ?? [];
    expect(existsSync(new URL(`../${path}`, import.meta.url)), row).toBe(true);
    expect(title.trim().length > 5 && read(path).includes(title.trim()), row).toBe(true);
  }
});
