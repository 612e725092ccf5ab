import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { victims } from '../fuzz/src/kills/victims.js';
import { atHome, runGaugerod } from '../support/run-gaugerod.js';
import { tempFolder } from '../support/temp-folder.js';

const main = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));

async function runAtOnce(lines: readonly string[], folder: string): Promise<void> {
  const env = { ...process.env, ...atHome(folder) };
  const ends = lines.map((line) =>
    once(spawn(process.execPath, [main, ...line.split(' ')], { cwd: folder, env }), 'exit'),
  );
  for (const [code] of (await Promise.all(ends)) as [number | null][]) expect(code).toBe(0);
  expect(readdirSync(folder).filter((name) => /\.tmp$|\.lock$/.test(name))).toEqual([]);
}

async function worksFolder(): Promise<string> {
  const folder = tempFolder();
  await victims.find(({ name }) => name === 'build')?.make(folder);
  return folder;
}

test('two builds of one job at once give what one gives', async () => {
  const [folder, alone] = [await worksFolder(), await worksFolder()];
  expect(runGaugerod(['build', 'works.yaml'], alone).exit).toBe(0);
  await runAtOnce(['build works.yaml', 'build works.yaml --report record.html'], folder);
  const names = readdirSync(join(alone, 'out'));
  expect(readdirSync(join(folder, 'out'))).toEqual(names);
  for (const name of names) {
    const [one, two] = [alone, folder].map((each) => readFileSync(join(each, 'out', name)));
    expect(one?.equals(two ?? Buffer.alloc(0)), name).toBe(true);
  }
});

test('of two who keep a measurement of one photo at once, neither loses the other’s notes', async () => {
  const folder = await worksFolder();
  const line = 'measure wall.png --course uk-metric --save';
  await runAtOnce([`${line} --licence CC0`, `${line} --credit Tansy`], folder);
  const kept = JSON.parse(readFileSync(join(folder, 'wall.surface.json'), 'utf8')) as object;
  expect(kept).toMatchObject({ photo: { file: 'wall.png' }, licence: 'CC0', credit: 'Tansy' });
});
