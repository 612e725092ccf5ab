import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  fillPhoto,
  type FillPhotoOptions,
  findCourse,
  findScale,
  type Raster,
} from '@gaugerod/core';
import { parsePrintSize } from '@gaugerod/core';
import { decodePhoto, drawWall, encodePhoto, judgePeriod } from '@gaugerod/fixtures';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-fill-'));
const photo = join(folder, 'wall.png');
const output = join(folder, 'fill.png');
// A UK metric course is 75 mm (4 courses to 300 mm), so 26.3 px of it are 2.852 mm each.
const wall = drawWall({ bond: 'english', coursePx: 26.3, width: 340, height: 330, seed: 501 });

beforeAll(async () => {
  writeFileSync(photo, await encodePhoto(wall.raster, { format: 'png' }));
  plain = await fill();
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const asked = {
  course: findCourse('uk-metric'),
  scale: findScale('OO'),
  size: parsePrintSize('40x30mm'),
};

interface Filled {
  readonly page: Raster;
  readonly tile: { readonly widthPx: number; readonly heightPx: number };
}

let plain: Filled;

async function fill(more: Partial<FillPhotoOptions> = {}): Promise<Filled> {
  const filled = await fillPhoto(photo, { ...asked, output, ...more });
  if (!filled.ok) throw new Error(filled.message);
  return { page: await decodePhoto(readFileSync(output)), tile: filled.value.tile };
}

// Over so many columns and rows from the top left.
function mean({ width, planes }: Raster, columns: number, rows: number): number {
  let sum = 0;
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) sum += planes[1][y * width + x]!;
  }
  return sum / (columns * rows);
}

function window(raster: Raster, left: number, top: number, size: number): number[] {
  return Array.from({ length: size * size }, (_, i) => {
    const at = (top + Math.floor(i / size)) * raster.width + left + (i % size);
    return raster.planes[0][at]!;
  });
}

describe('a photo of a wall, filled at 1:76.2', () => {
  test('is exactly as large as asked, and its courses and light are true', () => {
    const { page, tile } = plain;
    // 40 and 30 mm at 600 dpi: 944.88 and 708.66 dots.
    expect([page.width, page.height]).toEqual([945, 709]);
    // 75 mm / 76.2 = 0.98425 mm of paper, 23.25 dots: the worked chain of a yard of 914.4 mm.
    expect(Math.abs(judgePeriod(page, 23.25) / 23.25 - 1)).toBeLessThan(0.005);
    // Over a whole tile, or as much of it as the page holds.
    const lit = mean(
      page,
      Math.min(page.width, tile.widthPx),
      Math.min(page.height, tile.heightPx),
    );
    const { raster } = wall;
    expect(Math.abs(lit / mean(raster, raster.width, raster.height) - 1)).toBeLessThan(0.01);
  });

  test('runs on in the part beside and below it, from one datum', async () => {
    const { page: first } = plain;
    // 25.4 mm are 600 dots, so the second part begins where the first shows its dot 300,150.
    const { page: second } = await fill({ datum: { x: 12.7, y: 6.35 } });
    expect(window(second, 0, 0, 60)).toEqual(window(first, 300, 150, 60));
  });

  test('has bleed outside its size, and the same picture within', async () => {
    const { page: bare } = plain;
    // 2.54 mm are 60 dots on every side.
    const { page: bled } = await fill({ bleed: 2.54 });
    expect([bled.width, bled.height]).toEqual([945 + 120, 709 + 120]);
    expect(window(bled, 60, 60, 60)).toEqual(window(bare, 0, 0, 60));
  });

  test('begins on a bed joint where its datum lies', () => {
    const { page } = plain;
    // Light mortar: of the first course, the row on the datum is among the lightest.
    const rows = Array.from({ length: 23 }, (_, y) => mean(rowOf(page, y), page.width, 1));
    const brighter = rows.filter((row) => row > (rows[0] ?? 0)).length;
    expect(brighter).toBeLessThan(6);
  });
});

function rowOf(page: Raster, y: number): Raster {
  const [red, green, blue] = page.planes.map((plane) =>
    plane.subarray(y * page.width, (y + 1) * page.width),
  );
  if (!red || !green || !blue) throw new Error('three planes');
  return { width: page.width, height: 1, planes: [red, green, blue] };
}

test('a photo that wraps is trusted to hold whole courses', async () => {
  // Cut from bed joint to bed joint: twelve courses on 256 rows. Joints inside wander and say
  // anything near; the wrap says 256 / 12 = 21.33 px, and twelve courses are 900 mm, 279 dots.
  const { raster } = drawWall({
    coursePx: 64 / 3,
    offsetY: 0,
    courseJitter: 1.6,
    falloff: 0,
    vignette: 0,
    width: 300,
    height: 256,
    seed: 3,
  });
  const wrapped = join(folder, 'wrapped.png');
  writeFileSync(wrapped, await encodePhoto(raster, { format: 'png' }));
  const filled = await fillPhoto(wrapped, { ...asked, output: join(folder, 'wrapped-fill.png') });
  if (!filled.ok) throw new Error(filled.message);
  const { tile, measurement } = filled.value;
  expect(tile).toMatchObject({ heightPx: 279, courses: 12 });
  expect(measurement.coursePeriodPx).toBeCloseTo(64 / 3, 3);
});
