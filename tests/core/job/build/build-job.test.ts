import {
  existsSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import {
  type BuildEvent,
  buildJob,
  cleanJob,
  dpi,
  fillPhoto,
  findCourse,
  findScale,
  lookAtJob,
  parsePrintSize,
  waitForChange,
} from '@gaugerod/core';
import { beforeAll, expect, test } from 'vitest';
import {
  builtOf,
  drawPhotos,
  job,
  statesOf,
  type Works,
  works as worksOf,
} from '../../../support/building.js';
import { tempFolder } from '../../../support/temp-folder.js';

let photos: Awaited<ReturnType<typeof drawPhotos>>;
let red: Buffer;
let pale: Buffer;
let other: Buffer;

beforeAll(async () => {
  photos = await drawPhotos();
  ({ red, pale, other } = photos);
});

const works = (text?: string): Works => worksOf(photos, text);

test('a job is built whole, and the second time nothing is done', async () => {
  const { folder, build } = works();
  const first = await build();
  expect(builtOf(first)).toEqual(['gable', 'side', 'girder', 'front', 'walls', 'iron']);
  expect(readdirSync(join(folder, 'out')).sort()).toEqual(
    ['front.svg', 'gable.png', 'girder.png', 'iron.pdf', 'side.png', 'walls.pdf'].sort(),
  );
  const before = readdirSync(join(folder, 'out')).map(
    (name) => statSync(join(folder, 'out', name)).mtimeMs,
  );
  const events: BuildEvent[] = [];
  const second = await build({ onBuild: (event) => events.push(event) });
  expect(new Set(Object.values(statesOf(second)))).toEqual(new Set(['kept']));
  expect(events.every(({ step }) => step === 'kept')).toBe(true);
  const after = readdirSync(join(folder, 'out')).map(
    (name) => statSync(join(folder, 'out', name)).mtimeMs,
  );
  expect(after).toEqual(before);
});

test('a part is the same to the byte as when it is filled alone', async () => {
  const { folder, build } = works();
  await build({ only: ['gable'] });
  const alone = join(folder, 'alone.png');
  const filled = await fillPhoto(join(folder, 'red.png'), {
    course: findCourse('uk-metric'),
    scale: findScale('N-UK'),
    dpi: dpi(300),
    size: parsePrintSize('40x30mm'),
    datum: { x: 3, y: 2 },
    bleed: 1,
    output: alone,
  });
  expect(filled.ok).toBe(true);
  expect(readFileSync(join(folder, 'out', 'gable.png'))).toEqual(readFileSync(alone));
});

test('parts with bleed and a drawing without lie on one sheet, each as large as it is', async () => {
  const sheets =
    'sheets:\n  page: { paper: A4, parts: [gable, gable, girder, front], checkBar: true }\n';
  const { folder, build } = works(job.replace(/sheets:[^]*/, sheets));
  const { steps } = await build({ only: ['page'] });
  expect(steps.at(-1)).toMatchObject({ name: 'page', state: 'built', pages: 1 });
  expect(readdirSync(join(folder, 'out'))).toContain('page.pdf');
});

test('a changed photo rebuilds what follows from it and nothing else', async () => {
  const { folder, build } = works();
  await build();
  writeFileSync(join(folder, 'pale.png'), other);
  const plan = await build({ dryRun: true });
  expect(plan.steps.filter(({ state }) => state === 'planned').map(({ name }) => name)).toEqual([
    'side',
    'front',
    'walls',
  ]);
  expect(builtOf(await build())).toEqual(['side', 'front', 'walls']);
});

test('other options, a lost file and one that somebody changed are told of, and built again', async () => {
  const { folder, build, write } = works();
  await build();
  write(job.replace('40x30mm', '41x30mm'));
  rmSync(join(folder, 'out', 'side.png'));
  writeFileSync(join(folder, 'out', 'girder.png'), 'scribbled over');
  const why = Object.fromEntries(
    (await build({ dryRun: true })).steps.map((step) => [step.name, step.why]),
  );
  expect(why).toMatchObject({
    gable: 'its options changed',
    side: 'its file is gone',
    girder: 'its file was changed',
    front: null,
    walls: 'gable changed',
    iron: null,
  });
  expect(builtOf(await build())).toEqual(['gable', 'side', 'girder', 'walls']);
});

test('a dry run writes nothing', async () => {
  const { folder, build } = works();
  expect(new Set(Object.values(statesOf(await build({ dryRun: true }))))).toEqual(
    new Set(['planned']),
  );
  expect(readdirSync(folder).sort()).toEqual(['front.svg', 'pale.png', 'red.png', 'works.yaml']);
});

test('several scales are built side by side, one photo measured for each', async () => {
  const text = job.replace('scale: N-UK', 'scale: [N-UK, 1:76.2]').replace(/sheets:[^]*/, '');
  const { folder, build } = works(text);
  const built = await build({ only: ['side', 'girder'] });
  expect(built.steps.map(({ scale, name }) => `${scale.ratio} ${name}`)).toEqual([
    '148 side',
    '148 girder',
    '76.2 side',
    '76.2 girder',
  ]);
  expect(readdirSync(join(folder, 'out')).sort()).toEqual(['1-76.2', 'N-UK']);
  // 5 m at 1:148 and 1:76.2, with 1 mm on either side: 35.784 and 67.617 mm, to a dot of 300 dpi.
  const lengths = built.steps.filter(({ name }) => name === 'girder').map(({ widthMm }) => widthMm);
  expect(lengths[0]).toBeCloseTo(35.784, 0);
  expect(lengths[1]).toBeCloseTo(67.617, 0);
});

test('what fails keeps only what needs it from being built', async () => {
  const { folder, build } = works();
  writeFileSync(join(folder, 'pale.png'), 'no picture');
  const path = join(folder, 'works.yaml');
  const built = await buildJob(path, { jobs: 1 });
  expect(built).toMatchObject({ ok: false, code: 'not-built' });
  expect(!built.ok && built.message).toMatch(
    /^surface shed: .*pale\.png .*\(not built: side, front, walls; 3 others are there\)$/,
  );
  expect(readdirSync(join(folder, 'out')).sort()).toEqual(['gable.png', 'girder.png', 'iron.pdf']);
  writeFileSync(join(folder, 'pale.png'), pale);
  expect(builtOf(await build())).toEqual(['side', 'front', 'walls']);
});

test('what is kept and was damaged is not used', async () => {
  const { folder, build } = works();
  await build({ only: ['gable'] });
  const keep = join(folder, '.gaugerod');
  const kept = readdirSync(keep).find((name) => name.endsWith('.surface')) ?? '';
  const bytes = readFileSync(join(keep, kept));
  bytes[bytes.length - 100]! ^= 1;
  writeFileSync(join(keep, kept), bytes);
  rmSync(join(folder, 'out', 'gable.png'));
  const first = readFileSync(join(folder, 'red.png'));
  expect(builtOf(await build({ only: ['gable'] }))).toEqual(['gable']);
  expect(readFileSync(join(folder, 'red.png'))).toEqual(first);
});

test('no more is kept than was allowed, and --clean frees all of it', async () => {
  const { folder, build } = works();
  await build({ keepBytes: 10_000 });
  const keep = join(folder, '.gaugerod');
  expect(readdirSync(keep).filter((name) => name.endsWith('.surface'))).toEqual([]);
  expect(new Set(Object.values(statesOf(await build())))).toEqual(new Set(['kept']));
  writeFileSync(join(keep, 'mine.txt'), 'put here by hand');
  const { freedBytes } = await cleanJob(join(folder, 'works.yaml'));
  expect(freedBytes).toBeGreaterThan(0);
  expect(readdirSync(keep).sort()).toEqual(['CACHEDIR.TAG', 'mine.txt']);
  expect(existsSync(join(folder, 'out', 'gable.png'))).toBe(true);
});

test('a photo that is a link out of the folder is refused unless allowed', async () => {
  const { folder, build } = works();
  const elsewhere = join(tempFolder(), 'wall.png');
  writeFileSync(elsewhere, red);
  rmSync(join(folder, 'red.png'));
  symlinkSync(elsewhere, join(folder, 'red.png'));
  await expect(build({ only: ['gable'] })).rejects.toThrow(
    /red\.png is a link that leads out of the job's folder/,
  );
  expect(builtOf(await build({ only: ['gable'], anywhere: true }))).toEqual(['gable']);
});

test('a change of a photo, a drawing or the job ends the wait', async () => {
  const { folder } = works();
  const path = join(folder, 'works.yaml');
  for (const name of ['works.yaml', 'red.png', 'front.svg']) {
    const before = await lookAtJob(path);
    writeFileSync(join(folder, name), `${readFileSync(join(folder, name)).toString()} `);
    await waitForChange(before);
    if (name !== 'front.svg') writeFileSync(join(folder, name), name === 'red.png' ? red : job);
  }
  const ended = new AbortController();
  const waiting = waitForChange(await lookAtJob(path), ended.signal);
  ended.abort();
  await expect(waiting).rejects.toThrow();
});
