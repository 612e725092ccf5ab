import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  type BuiltJob,
  noSettings,
  type OwnReference,
  realMm,
  type SettingName,
  type Settings,
} from '@gaugerod/core';
import sharp from 'sharp';
import { beforeAll, expect, test } from 'vitest';
import { drawPhotos, type Photos, statesOf, works as worksOf } from '../../../support/building.js';
import { tempFolder } from '../../../support/temp-folder.js';

let photos: Photos;

beforeAll(async () => {
  photos = await drawPhotos();
});

const job = `gaugerod: 1
scale: N
surfaces:
  red: { photo: red.png, course: dye-house }
parts:
  gable: { surface: red, size: 25.4x12.7mm }
  sill:  { relief: { section: UB 533x210x92, length: 5m }, colour: firebrick, file: sill.svg }
sheets:
  page: { parts: [gable] }
`;

const dyeHouse: OwnReference = {
  ...{ id: 'dye-house', name: 'dye-house', source: 'measured by me' },
  kind: 'brick',
  ...{ course: realMm(75), tolerance: realMm(1) },
  ...{ length: null, lengthTolerance: null, width: null, joint: null },
};

function settings(texts: Partial<Record<SettingName, string>>, course = 75): Settings {
  const values = Object.entries(texts).map(([name, text]) => [name, { text, file: 'set.yaml' }]);
  const references = [{ ...dyeHouse, course: realMm(course) }];
  return { ...noSettings, values: Object.fromEntries(values) as Settings['values'], references };
}

function whyOf({ steps }: BuiltJob): Record<string, string | null> {
  return Object.fromEntries(steps.map(({ name, why }) => [name, why]));
}

test('what a job does not say is taken from what is set, and a change of it is built again', async () => {
  const { folder, build, write } = worksOf(photos, job);
  const usual = { region: 'UK', dpi: '200', paper: 'A5', printerX: '99.4' } as const;
  const first = await build({ settings: settings(usual) });
  // 25.4 mm are an inch, so as many dots as are set for one.
  const { width, height } = await sharp(join(folder, 'out/gable.png')).metadata();
  expect([width, height]).toEqual([200, 100]);
  // British N is 1:148; A5 is 148 x 210 mm (ISO 216).
  const page = first.steps.find(({ name }) => name === 'page');
  expect([page?.scale.ratio, page?.widthMm, page?.heightMm]).toEqual([148, 148, 210]);
  expect(first.settings?.map(({ name, value, file }) => [name, value, file])).toEqual([
    ['region', 'UK', 'set.yaml'],
    ['dpi', '200', 'set.yaml'],
    ['paper', 'A5', 'set.yaml'],
    ['printerX', '99.4', 'set.yaml'],
  ]);
  const again = await build({ settings: settings(usual) });
  expect(new Set(Object.values(statesOf(again)))).toEqual(new Set(['kept']));

  const other = await build({ dryRun: true, settings: settings({ ...usual, paper: 'A4' }) });
  expect(whyOf(other)).toEqual({ gable: null, sill: null, page: 'its options changed' });
  const larger = await build({ dryRun: true, settings: settings(usual, 76) });
  expect(whyOf(larger)).toEqual({
    gable: 'its options changed',
    sill: null,
    page: 'gable changed',
  });

  write(job.replace('scale: N', 'scale: N-UK\ndpi: 254\npaper: A4'));
  const told = await build({ settings: settings(usual) });
  expect((await sharp(join(folder, 'out/gable.png')).metadata()).width).toBe(254);
  expect(told.steps.at(-1)?.widthMm).toBe(210);
  expect(told.settings?.map(({ name }) => name)).toEqual(['printerX']);
});

function namesOf({ settings: told = [] }: BuiltJob): string[] {
  return told.map(({ name }) => name);
}

test('what is set is told where it counts, and not where a part or a sheet says otherwise', async () => {
  const usual = { region: 'UK', dpi: '300', paper: 'A5', margin: '9mm' } as const;
  const set = settings({ ...usual, dotGain: '18%', sharpen: '1' });
  const own = job
    .replace('scale: N', 'scale: 1:148')
    .replace('size: 25.4x12.7mm', 'size: 25.4x12.7mm, scale: N, dpi: 150, printing: {}')
    .replace('colour: firebrick', 'colour: firebrick, dpi: 150')
    .replace('parts: [gable]', 'parts: [gable], paper: A4, margin: 5mm');
  const dry = async (text: string, more: object = {}): Promise<string[]> =>
    namesOf(await worksOf(photos, text).build({ dryRun: true, settings: set, ...more }));
  // The gable is of British N by its own word; of printing a drawing of the sill takes sharpening alone.
  expect(await dry(own)).toEqual(['region', 'sharpen']);
  expect(await dry(own, { only: ['sill'] })).toEqual(['sharpen']);
  expect(await dry(own.replace('scale: N,', ''))).toEqual(['sharpen']);
  expect(await dry(own.replace('parts: [gable], paper: A4', 'parts: [gable]'))).toEqual([
    ...['region', 'paper', 'sharpen'],
  ]);
  expect(await dry(own.replace('printing: {}', 'bleed: 1mm'))).toEqual([
    ...['region', 'dotGain', 'sharpen'],
  ]);
  // A page that is a picture has dots of its own; one in vectors has those of its parts.
  expect(await dry(own.replace('page: {', 'page: { file: page.png,'))).toEqual([
    ...['region', 'dpi', 'sharpen'],
  ]);
  const all = ['region', 'dpi', 'paper', 'margin', 'dotGain', 'sharpen'];
  expect(await dry(job)).toEqual(all);
  expect(await dry(job, { only: ['gable'] })).toEqual(['region', 'dpi', 'dotGain', 'sharpen']);
});

test('a profile that is set lies wherever its owner keeps it, and is read like any input', async () => {
  const { build } = worksOf(photos, job);
  const printer = join(tempFolder(), 'my.printer.json');
  const set = settings({ region: 'UK', printer });
  // No line of the job's says so.
  await expect(build({ dryRun: true, settings: set })).rejects.toThrow(
    `set.yaml: printing.printer is ${printer}, which is no file`,
  );
  writeFileSync(printer, '{}');
  // Relief of a drawing cannot take colours, and does without.
  expect(statesOf(await build({ dryRun: true, settings: set }))).toEqual({
    ...{ gable: 'planned', sill: 'planned', page: 'planned' },
  });
  await expect(build({ only: ['gable'], settings: set })).rejects.toThrow('my.printer.json');
  expect(statesOf(await build({ only: ['sill'], settings: set }))).toEqual({ sill: 'built' });
});

test('without settings a job knows nothing of them', async () => {
  const { build } = worksOf(photos, job);
  await expect(build({ dryRun: true })).rejects.toThrow(/works\.yaml:2:8: expected one of N-EU/);
});
