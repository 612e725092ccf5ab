import {
  copyFileSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  type FoundSidecar,
  type Measurement,
  type Photo,
  readPhoto,
  readSidecar,
  realMm,
  TextureError,
  writeSidecar,
} from '@gaugerod/core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { pngFile } from '../../support/picture-files.js';

let folder = '';
let wall = '';
let photo: Photo;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'gaugerod-sidecar-'));
  wall = join(folder, 'wall.png');
  writeFileSync(wall, pngFile({ width: 30, height: 20 }));
  photo = await readPhoto(wall);
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

const measurement: Measurement = {
  method: 'courses',
  reference: {
    id: 'uk-metric',
    name: 'UK metric brick',
    size: realMm(75),
    uncertainty: 0.006,
    source: 'BS EN 771-1',
  },
  mmPerPx: { x: 1.2, y: 1.2 },
  uncertaintyPercent: 0.4,
  budget: [{ source: 'fit', percent: 0.2 }],
  confidence: 0.97,
  rectification: null,
  lattice: null,
};

const keep = (kept: Measurement = measurement): Promise<string> =>
  writeSidecar(photo, { measurement: kept, licence: 'CC0', credit: null });

async function refusal(of: Photo = photo): Promise<TextureError> {
  const caught: unknown = await readSidecar(of).catch((cause: unknown) => cause);
  if (caught instanceof TextureError) return caught;
  throw new Error(`no refusal: ${String(caught)}`);
}

test('a photo that was not measured has no surface file', async () => {
  expect(await readSidecar(photo)).toBeNull();
});

test('a measurement is kept beside its photo and found again', async () => {
  const path = await keep();
  expect(path).toBe(join(folder, 'wall.surface.json'));
  expect(readdirSync(folder)).toEqual(['wall.png', 'wall.surface.json']);
  expect(await readSidecar(photo)).toEqual<FoundSidecar>({
    path,
    photo: { file: 'wall.png', sha256: photo.sha256, width: 30, height: 20 },
    measurement,
    licence: 'CC0',
    credit: null,
  });
});

test('a photo measured again has its newer measurement', async () => {
  await keep();
  await keep({ ...measurement, confidence: 0.5 });
  expect((await readSidecar(photo))?.measurement.confidence).toBe(0.5);
});

test('a photo that has changed since is refused, with the command that measures again', async () => {
  const path = await keep();
  writeFileSync(wall, pngFile({ width: 30, height: 20, pixels: new Uint8Array(1800) }));
  expect(await refusal(await readPhoto(wall))).toMatchObject({
    code: 'stale-sidecar',
    message: `${path} is of another state of wall.png: the photo has changed since it was measured`,
    hint: `measure it again: gaugerod measure ${wall} --course uk-metric --save`,
  });
});

test('the hint asks for what was said last time', async () => {
  const own = { ...measurement.reference, id: 'own', size: realMm(600) };
  const hintOf = async (kept: Measurement): Promise<string | undefined> => {
    await keep(kept);
    return (await refusal({ ...photo, sha256: '0'.repeat(64) })).hint;
  };
  expect(await hintOf({ ...measurement, method: 'span', reference: own })).toContain(
    `${wall} --span "x,y x,y" --length 600mm --save`,
  );
  expect(await hintOf({ ...measurement, method: 'count' })).toContain(
    '--courses N --course uk-metric --save',
  );
  expect(await hintOf({ ...measurement, reference: own })).toContain('--course 600mm --save');
});

test("another photo's surface file is told from one's own", async () => {
  await keep();
  copyFileSync(wall, join(folder, 'wall.jpg'));
  const twin = await readPhoto(join(folder, 'wall.jpg'));
  // The same bytes under another name are the same photo.
  expect((await readSidecar(twin))?.measurement).toEqual(measurement);
  writeFileSync(join(folder, 'wall.jpg'), pngFile({ width: 9, height: 9 }));
  expect((await refusal(await readPhoto(join(folder, 'wall.jpg')))).message).toContain(
    'is of another photo, wall.png, not of wall.jpg',
  );
});

test('a surface says how it is made level, and nothing where it is level by its own word', async () => {
  const { width, height } = photo;
  const rectification = {
    matrix: [1, 0.01, -0.005 * height, -0.01, 1, 0.005 * width, 0, 0, 1],
    lens: 0.02,
  } as const;
  await keep({ ...measurement, rectification });
  expect((await readSidecar(photo))?.measurement.rectification).toEqual(rectification);
  await keep({ ...measurement, rectification: { matrix: [2, 0, 0, 0, 2, 0, 0, 0, 2], lens: 0 } });
  expect((await readSidecar(photo))?.measurement.rectification).toBeNull();
});

test('a file of a newer version is refused with its version', async () => {
  const path = await keep();
  writeFileSync(path, readFileSync(path, 'utf8').replace('surface/1', 'surface/3'));
  const { code, message, hint } = await refusal();
  expect([code, message]).toEqual([
    'newer-sidecar',
    `${path}: it is of version 3, and version 1 is read`,
  ]);
  expect(hint).toContain('use a newer gaugerod, or measure it again: ');
});

test('a value that is out of range is named, and the file with it', async () => {
  const path = await keep();
  writeFileSync(path, readFileSync(path, 'utf8').replace('"x": 1.2', '"x": -1.2'));
  expect(await refusal()).toMatchObject({
    code: 'bad-sidecar',
    message: `${path} is no surface file: expected a number of 0.0001 to 100000 for mmPerPx.x, got -1.2`,
  });
});

test('a size that is not the photo’s is refused', async () => {
  const path = await keep();
  writeFileSync(path, readFileSync(path, 'utf8').replace('"width": 30', '"width": 300'));
  expect((await refusal()).message).toBe(
    `${path} says that wall.png is 300 x 20 pixels, but it is 30 x 20`,
  );
});

test.each([
  ['UTF-16', Buffer.from('\ufeff{"schema":"gaugerod.surface/1"}', 'utf16le')],
  ['a picture', pngFile({ width: 1, height: 1 })],
  ['nothing', Buffer.alloc(0)],
])('%s is no surface file', async (_, bytes) => {
  writeFileSync(join(folder, 'wall.surface.json'), bytes);
  expect((await refusal()).code).toBe('bad-sidecar');
});

test('a surface file past all reason is not read', async () => {
  const path = await keep();
  truncateSync(path, 2e9);
  expect((await refusal()).code).toBe('too-large');
});

test('the command in a hint can be pasted, whatever the name', async () => {
  await keep();
  const odd = join(folder, "it's a wall.png");
  renameSync(wall, odd);
  renameSync(join(folder, 'wall.surface.json'), join(folder, "it's a wall.surface.json"));
  const { hint } = await refusal({ ...photo, path: odd, sha256: '0'.repeat(64) });
  expect(hint).toContain(String.raw`it'\''s a wall.png' --course uk-metric --save`);
});
