import { readdirSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildJob } from '@gaugerod/core';
import { beforeAll, expect, test } from 'vitest';
import {
  builtOf,
  drawPhotos,
  statesOf,
  type Works,
  works as worksOf,
} from '../../../support/building.js';
import { tempFolder } from '../../../support/temp-folder.js';

let photos: Awaited<ReturnType<typeof drawPhotos>>;
let red: Buffer;
let pale: Buffer;

beforeAll(async () => {
  photos = await drawPhotos();
  ({ red, pale } = photos);
});

const works = (text?: string): Works => worksOf(photos, text);

const small = `gaugerod: 1
scale: N-UK
dpi: 150
surfaces:
  red:  { photo: red.png, course: uk-metric }
  pale: { photo: pale.png, course: uk-metric }
parts:
  gable: { surface: red, size: 20x10mm }
`;

test.each([
  [
    'a photo that no part asks for',
    small.replace('dpi:', 'output: .\ndpi:').replace('gable: {', 'gable: { file: pale.png,'),
  ],
  [
    'the photo of a part',
    small.replace('dpi:', 'output: .\ndpi:').replace('gable: {', 'gable: { file: RED.png,'),
  ],
])('%s is never written over', async (_, text) => {
  const { folder, build } = works(text);
  await expect(build({ only: ['gable'] })).rejects.toThrow(
    /gable would write over .*\.png, which the job reads/,
  );
  expect(readFileSync(join(folder, 'red.png'))).toEqual(red);
  expect(readFileSync(join(folder, 'pale.png'))).toEqual(pale);
});

test('pages that are pictures count as files that are written', async () => {
  const sheets = 'sheets:\n  page: { parts: [gable], file: red.png }\n';
  const { build, folder } = works(
    `${small.replace('dpi:', 'output: .\ndpi:').replaceAll('red.png', 'red-2.png')}${sheets}`,
  );
  renameSync(join(folder, 'red.png'), join(folder, 'red-2.png'));
  await expect(build()).rejects.toThrow(/page would write over .*red-2\.png/);
});

test('nothing is written through a link out of the folder', async () => {
  const { folder, build } = works(small);
  const elsewhere = tempFolder();
  symlinkSync(elsewhere, join(folder, 'out'));
  await expect(build()).rejects.toThrow(
    /is, or lies behind, a link that leads out of the job's folder/,
  );
  expect(readdirSync(elsewhere)).toEqual([]);
  rmSync(join(folder, 'out'));
  symlinkSync(folder, join(folder, 'out'));
  const text = small.replace('gable: {', 'gable: { file: red.png,');
  writeFileSync(join(folder, 'works.yaml'), text);
  await expect(build()).rejects.toThrow(/gable would write over/);
  expect(readFileSync(join(folder, 'red.png'))).toEqual(red);
});

test('a job is the same from wherever it is built', async () => {
  const { folder, build } = works(small);
  await build();
  const here = process.cwd();
  try {
    process.chdir(folder);
    const built = await buildJob('works.yaml', { jobs: 1 });
    expect(built.ok && statesOf(built.value)).toEqual({ gable: 'kept' });
  } finally {
    process.chdir(here);
  }
});

test('a photo anywhere is read where that is allowed', async () => {
  const elsewhere = join(tempFolder(), 'wall.png');
  writeFileSync(elsewhere, red);
  const { build } = works(small.replace('red.png', elsewhere));
  await expect(build()).rejects.toThrow(/is an absolute path/);
  expect(builtOf(await build({ anywhere: true }))).toEqual(['gable']);
});

test('what is to be known of a surface is told again, and so is the wall round the corner', async () => {
  const { folder } = works(small.replace('size:', 'corner: right, size:'));
  const path = join(folder, 'works.yaml');
  const first = await buildJob(path, { jobs: 1 });
  const second = await buildJob(path, { jobs: 1 });
  expect(second.ok && first.ok && second.warnings).toEqual(first.ok && first.warnings);
  // 20 mm at 150 dpi are 118 dots: 19.9813 mm.
  expect(second.ok && second.value.steps[0]?.nextWall).toEqual({
    corner: 'right',
    datumXMm: 19.9813,
    datumYMm: 0,
  });
});
