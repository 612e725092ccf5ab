import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  type FilledPhoto,
  fillPhoto,
  type FillPhotoOptions,
  findCourse,
  findScale,
  measurePhoto,
  mendPhoto,
  parsePrintSize,
  type Raster,
  readPhoto,
  readSidecar,
  type Warning,
  writeSidecar,
} from '@gaugerod/core';
import { decodePhoto, drawWall, encodePhoto, judgePeriod } from '@gaugerod/fixtures';
import { afterAll, beforeAll, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-finished-'));
const photo = join(folder, 'wall.png');
const tile = join(folder, 'tile.png');
const course = findCourse('uk-metric');

beforeAll(async () => {
  const wall = drawWall({ bond: 'flemish', coursePx: 26, width: 620, height: 430, seed: 702 });
  writeFileSync(photo, await encodePhoto(wall.raster, { format: 'png' }));
  await mendPhoto(photo, { output: tile, course });
  await measurePhoto(tile, { course, save: true });
  await measurePhoto(photo, { course, save: true });
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

interface Filled {
  readonly report: FilledPhoto;
  readonly warnings: readonly Warning[];
  readonly page: Raster;
}

const output = join(folder, 'fill.png');

async function fill(more: Partial<FillPhotoOptions> = {}): Promise<Filled> {
  const asked = { scale: findScale('OO'), size: parsePrintSize('60x40mm'), output };
  const filled = await fillPhoto(tile, { ...asked, ...more });
  if (!filled.ok) throw new Error(filled.message);
  const { value: report, warnings } = filled;
  return { report, warnings, page: await decodePhoto(readFileSync(output)) };
}

// The same, of a surface file that does not say that the tile is one.
async function fillAnew(more: Partial<FillPhotoOptions> = {}): Promise<Filled> {
  const read = await readPhoto(tile);
  const kept = await readSidecar(read);
  if (kept === null) throw new Error('no surface file');
  const { measurement, licence, credit } = kept;
  await writeSidecar(read, { measurement, licence, credit });
  try {
    return await fill(more);
  } finally {
    await writeSidecar(read, kept);
  }
}

test('measuring keeps that a mended tile is one, and that a photo of a wall is none', async () => {
  expect((await readSidecar(await readPhoto(tile)))?.finished).toBe(true);
  expect((await readSidecar(await readPhoto(photo)))?.finished).toBeUndefined();
});

test.each([{}, { even: false }, { method: 'cut' }, { datum: { x: 12.7, y: -6.35 } }] as const)(
  'a tile that is known to be one is told of as if it were looked at anew: %j',
  async (more) => {
    const [known, anew] = [await fill(more), await fillAnew(more)];
    expect(known.report).toEqual(anew.report);
    expect(known.warnings).toEqual(anew.warnings);
  },
);

test('it shows the same wall in the same place, and a part beside it runs on', async () => {
  const [known, anew] = [await fill(), await fillAnew()];
  // 75 mm / 76.2 is 0.98425 mm of paper, 23.25 dots: the worked chain of a yard of 914.4 mm.
  expect(Math.abs(judgePeriod(known.page, 23.25) / 23.25 - 1)).toBeLessThan(0.005);
  const { width, height } = known.page;
  const off = (shift: number): number => {
    let sum = 0;
    for (let i = shift; i < width * height; i++) {
      sum += Math.abs(known.page.planes[1][i]! - anew.page.planes[1][i - shift]!);
    }
    return sum;
  };
  // Finer than it was, but nowhere else: a dot aside, or a row, it is much less alike.
  expect(off(0)).toBeLessThan(0.5 * off(1));
  expect(off(0)).toBeLessThan(0.5 * off(width));
  // 12.7 mm are 300 dots and 6.35 are 150.
  const { page: beside } = await fill({ datum: { x: 12.7, y: 6.35 } });
  const at = ({ planes }: Raster, x: number, y: number): number => planes[0][y * width + x]!;
  for (let y = 0; y < 500; y += 7) {
    for (let x = 0; x < 900; x += 3) {
      expect(at(beside, x, y)).toBe(at(known.page, x + 300, y + 150));
    }
  }
});

test('a tile that has changed since is not taken for the one that was kept', async () => {
  const bytes = readFileSync(tile);
  const wall = drawWall({ bond: 'flemish', coursePx: 26, width: 600, height: 400, seed: 9 });
  writeFileSync(tile, await encodePhoto(wall.raster, { format: 'png' }));
  await expect(fill()).rejects.toMatchObject({ code: 'stale-sidecar' });
  writeFileSync(tile, bytes);
});
