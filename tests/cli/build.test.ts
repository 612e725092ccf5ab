import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { jobSchema } from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, expect, test } from 'vitest';
import { atHome, runGaugerod } from '../support/run-gaugerod.js';
import { tempFolder } from '../support/temp-folder.js';

const main = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));

const job = `gaugerod: 1
scale: N-UK
dpi: 300
surfaces:
  red:  { photo: wall one.png, course: uk-metric }
  pale: { photo: wall two.png, course: uk-metric }
parts:
  gable: { surface: red, size: 60x40mm }
  side:  { surface: pale, size: 60x40mm }
  tower: { surface: red, size: 20x90mm, datum: [60, -50] }
sheets:
  page: { parts: [gable, side, tower] }
`;

const photos: Buffer[] = [];

beforeAll(async () => {
  for (const seed of [811, 812]) {
    const wall = drawWall({ bond: 'english', coursePx: 24.5, width: 360, height: 300, seed });
    photos.push(await encodePhoto(wall.raster, { format: 'png' }));
  }
});

function works(): string {
  const folder = tempFolder();
  writeFileSync(join(folder, 'works.yaml'), job);
  writeFileSync(join(folder, 'wall one.png'), photos[0]!);
  writeFileSync(join(folder, 'wall two.png'), photos[1]!);
  return folder;
}

function outputs(folder: string): Record<string, string> {
  const out = join(folder, 'out');
  const names = existsSync(out) ? readdirSync(out) : [];
  return Object.fromEntries(
    names.map((name) => [name, readFileSync(join(out, name)).toString('base64')]),
  );
}

test('threads do as one does alone, and a line in a pipe tells of each part', () => {
  const alone = works();
  const both = works();
  const one = runGaugerod(['build', 'works.yaml', '--jobs', '1'], alone);
  const two = runGaugerod(['build', 'works.yaml', '--jobs', '2'], both);
  expect([one.exit, two.exit]).toEqual([0, 0]);
  expect(outputs(both)).toEqual(outputs(alone));
  expect(two.stdout).toBe(one.stdout);
  expect(two.stdout).toContain('works.yaml: 4 built\n');
  for (const name of ['surface red', 'surface pale', 'gable', 'side', 'tower', 'page']) {
    expect(two.stderr).toMatch(new RegExp(`^${name}, N-UK: done, \\d+\\.\\d s$`, 'm'));
  }
  expect(runGaugerod(['build', 'works.yaml', '--quiet'], both)).toEqual({
    exit: 0,
    stdout: 'works.yaml: 4 as they were\n',
    stderr: '',
  });
});

test('a mistake in the job is one line with file, line and column', () => {
  const folder = works();
  writeFileSync(join(folder, 'works.yaml'), job.replace('20x90mm', '20x90'.padEnd(9, 'q')));
  const { exit, stdout, stderr } = runGaugerod(['build', 'works.yaml'], folder);
  expect([exit, stdout]).toEqual([1, '']);
  expect(stderr).toMatch(
    /^error: works\.yaml:10:32: expected a size such as 120x80mm for size, got "20x90qqqq"\n$/,
  );
});

test('of several things that fail each is a line of its own, and all are in the object', () => {
  const folder = works();
  writeFileSync(join(folder, 'wall one.png'), 'no picture');
  writeFileSync(join(folder, 'wall two.png'), '');
  const { exit, stdout, stderr } = runGaugerod(['build', 'works.yaml', '--json'], folder);
  const lines = [
    'surface red: wall one.png holds text, not a picture (not built: gable, tower, page)',
    'surface pale: wall two.png is empty (not built: side, page)',
  ];
  expect(exit).toBe(1);
  const { error } = JSON.parse(stdout) as {
    error: { message: string; others: { message: string }[] };
  };
  expect([error, ...error.others].map(({ message }) => message)).toEqual(lines);
  for (const line of lines) expect(stderr).toContain(`error: ${line}\n`);
  const url = new URL('../../packages/core/schema/results.schema.json', import.meta.url);
  const schema = JSON.parse(readFileSync(url, 'utf8')) as { $id: string };
  const ajv = new Ajv2020({ strict: false });
  ajv.addSchema(schema);
  expect(ajv.validate(`${schema.$id}#/$defs/error`, JSON.parse(stdout)), stdout).toBe(true);
});

test.each([
  [['--clean', '--watch'], 'expected --clean alone, got it with --watch'],
  [['--watch', '--dry-run'], 'expected --watch or --dry-run, got both'],
  [['--jobs', '0'], 'expected a whole number from 1 to 64 for --jobs, got "0"'],
  [['--keep-limit', '5'], 'expected a size such as 500MB or 2GB for --keep-limit, got "5"'],
  [['--only', 'gabel'], 'expected one of gable for --only, got "gabel"'],
])('%j is a wrong command', (words, told) => {
  const { exit, stderr } = runGaugerod(['build', 'works.yaml', ...words], works());
  expect(exit).toBe(2);
  expect(stderr).toContain(`error: ${told}\n`);
});

function begin(folder: string, ...words: string[]): ChildProcess {
  return spawn(process.execPath, [main, 'build', 'works.yaml', ...words], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'ignore'],
    env: { ...process.env, ...atHome(folder) },
  });
}

function stray(folder: string): string[] {
  return [folder, join(folder, 'out'), join(folder, '.gaugerod')]
    .filter(existsSync)
    .flatMap((one) => readdirSync(one).filter((name) => name.endsWith('.tmp')));
}

test('an interrupted build leaves nothing half done, and goes on where it was', async () => {
  const folder = works();
  const whole = works();
  expect(runGaugerod(['build', 'works.yaml', '--quiet'], whole).exit).toBe(0);
  const running = begin(folder, '--jobs', '2');
  // Until something is kept, or for as long as starting takes.
  for (let i = 0; i < 100 && !existsSync(join(folder, '.gaugerod')); i++) await wait(30);
  running.kill('SIGINT');
  const [code] = (await once(running, 'exit')) as [number | null];
  expect(code).toBe(130);
  expect(stray(folder)).toEqual([]);
  expect(runGaugerod(['build', 'works.yaml', '--quiet'], folder).exit).toBe(0);
  expect(outputs(folder)).toEqual(outputs(whole));
});

test('a killed build leaves what is kept sound: the next one comes to the same', async () => {
  const folder = works();
  const whole = works();
  expect(runGaugerod(['build', 'works.yaml', '--quiet'], whole).exit).toBe(0);
  // Seeded: at moments spread over a build.
  for (const ms of [400, 700, 1000, 1300, 1600]) {
    const running = begin(folder, '--jobs', '2');
    await wait(ms);
    running.kill('SIGKILL');
    await once(running, 'exit').catch(() => undefined);
    const good = outputs(whole);
    for (const [name, bytes] of Object.entries(outputs(folder))) {
      if (!name.endsWith('.tmp')) expect(bytes === good[name], name).toBe(true);
    }
  }
  expect(runGaugerod(['build', 'works.yaml', '--quiet'], folder).exit).toBe(0);
  expect(outputs(folder)).toEqual(outputs(whole));
  expect(stray(folder)).toEqual([]);
});

test('--watch builds again when a file of defaults is made', async () => {
  const folder = works();
  const running = begin(folder, '--watch', '--only', 'side', '--jobs', '1');
  let said = '';
  running.stdout?.on('data', (piece: Buffer) => {
    said += piece.toString();
  });
  const hear = async (count: number): Promise<void> => {
    for (let i = 0; i < 400 && said.split('works.yaml:').length <= count; i++) await wait(50);
  };
  await hear(1);
  writeFileSync(join(folder, 'gaugerod.config.yaml'), 'printing: { saturation: 0.5 }\n');
  await hear(2);
  running.kill('SIGTERM');
  await once(running, 'exit');
  expect(said).toContain('set in gaugerod.config.yaml: saturation 0.5');
});

test('--watch builds again when a photo changes', async () => {
  const folder = works();
  const running = begin(folder, '--watch', '--only', 'side', '--jobs', '1');
  let said = '';
  running.stdout?.on('data', (piece: Buffer) => {
    said += piece.toString();
  });
  const hear = async (count: number): Promise<void> => {
    for (let i = 0; i < 400 && said.split('works.yaml:').length <= count; i++) await wait(50);
  };
  await hear(1);
  const before = outputs(folder)['side.png'];
  writeFileSync(join(folder, 'wall two.png'), photos[0]!);
  await hear(2);
  running.kill('SIGTERM');
  await once(running, 'exit');
  expect(said).toMatch(/wall two\.png changed/);
  expect(outputs(folder)['side.png']).not.toBe(before);
});

test('the published schema is the one that jobs are held against, and takes the job above', () => {
  const url = new URL('../../packages/core/schema/works.schema.json', import.meta.url);
  const published = JSON.parse(readFileSync(url, 'utf8')) as object;
  expect(published).toEqual(JSON.parse(JSON.stringify(jobSchema)));
  const check = new Ajv2020({ allowUnionTypes: true }).compile(published);
  const parts = { gable: { surface: 'red', size: '60x40mm', datum: [0, 0] } };
  const surfaces = { red: { photo: 'wall one.png', course: 'uk-metric' } };
  expect(check({ gaugerod: 1, scale: 'N-UK', surfaces, parts })).toBe(true);
  expect(check({ gaugerod: 1, scale: 'N-UK', surfaces, parts: { gable: { size: '9mm' } } })).toBe(
    false,
  );
});

test('a sheet takes every layer of card of a part, and no part writes over one', () => {
  const folder = tempFolder();
  const beam = "relief: { section: UB 533x210x92, length: 6m, layers: true }, colour: '#7a543e'";
  const write = (more: string): void => {
    const text = `gaugerod: 1\nscale: 1:76.2\ndpi: 150\nparts:\n  beam: { ${beam} }\n${more}`;
    writeFileSync(join(folder, 'works.yaml'), text);
  };
  write('sheets:\n  page: { parts: [beam] }\n');
  const built = runGaugerod(['build', 'works.yaml', '--json', '--quiet'], folder);
  const { steps } = JSON.parse(built.stdout) as { readonly steps: readonly { files: string[] }[] };
  expect(steps.map(({ files }) => files.length)).toEqual([2, 1]);
  expect(Object.keys(outputs(folder)).sort()).toEqual([
    'beam-2-flanges.png',
    'beam.png',
    'page.pdf',
  ]);
  const again = runGaugerod(['build', 'works.yaml', '--quiet'], folder);
  expect(again.stdout).toBe('works.yaml: 2 as they were\n');
  write('  beam-2-flanges: { relief: { profile: plate, depth: 1m, length: 2m }, colour: red }\n');
  const { exit, stderr } = runGaugerod(['build', 'works.yaml'], folder);
  expect(exit).toBe(1);
  expect(stderr).toContain('would write one file, beam-2-flanges.png');
});

test('outlines of a drawing are in relief by their key, and a size that is missing is told there', () => {
  const folder = works();
  const rect = '<rect width="40" height="8" x="2" y="2" fill="#b5432e"/>';
  writeFileSync(
    join(folder, 'front.svg'),
    `<svg xmlns="http://www.w3.org/2000/svg" width="50mm" height="12mm" viewBox="0 0 50 12">${rect}</svg>`,
  );
  const write = (sizes: string): void => {
    const relief = `{ "#b5432e": { profile: plate-girder, flange: 60mm${sizes} } }`;
    const part = `{ drawing: front.svg, paint: { "#b5432e": red }, relief: ${relief} }`;
    const text = job.replace(/parts:[^]*/, `parts:\n  front: ${part}\n`);
    writeFileSync(join(folder, 'works.yaml'), text);
  };
  write('');
  const wrong = runGaugerod(['build', 'works.yaml'], folder);
  expect(wrong.exit).toBe(1);
  expect(wrong.stderr).toMatch(
    /^error: works\.yaml:8:\d+: expected the depth of the angles’ legs of a plate girder, leg of #b5432e, for relief, got nothing$/m,
  );
  write(', leg: 150mm');
  expect(runGaugerod(['build', 'works.yaml', '--quiet'], folder).exit).toBe(0);
  const one = outputs(folder)['front.svg'];
  write(', leg: 150mm, light: below');
  expect(runGaugerod(['build', 'works.yaml', '--quiet'], folder).exit).toBe(0);
  expect(outputs(folder)['front.svg']).not.toBe(one);
});
