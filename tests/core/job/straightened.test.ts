import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  fillPhoto,
  findCourse,
  findScale,
  inspectSeams,
  type Measurement,
  mendPhoto,
  parsePrintSize,
  px,
  readPhoto,
  scalePhoto,
  writeSidecar,
} from '@gaugerod/core';
import { decodePhoto, drawWall, encodePhoto, judgePeriod } from '@gaugerod/fixtures';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { latticeOf } from '../../support/lattice-of.js';

// Seen from the left and from below, through a lens, the camera not held level.
const wall = drawWall({
  bond: 'flemish',
  coursePx: 25,
  width: 620,
  height: 460,
  rotation: 4,
  tiltX: 15,
  tiltY: -6,
  lens: 0.02,
  seed: 771,
});
const folder = mkdtempSync(join(tmpdir(), 'gaugerod-straight-'));
const photo = join(folder, 'wall.png');
const output = join(folder, 'out.png');
const asked = { scale: findScale('OO'), size: parsePrintSize('40x30mm'), output };

beforeAll(async () => {
  writeFileSync(photo, await encodePhoto(wall.raster, { format: 'png' }));
  await keep();
});

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

async function keep(more: Partial<Measurement> = {}): Promise<void> {
  const { truth } = wall;
  const measurement: Measurement = {
    method: 'courses',
    reference: findCourse('uk-metric'),
    mmPerPx: truth.mmPerPx,
    uncertaintyPercent: 0.5,
    budget: [{ source: 'fit', percent: 0.25 }],
    confidence: 0.95,
    rectification: truth.rectification,
    lattice: latticeOf(truth),
    ...more,
  };
  await writeSidecar(await readPhoto(photo), { measurement, licence: 'CC0', credit: null });
}

describe('a photo taken askew, whose surface file says how it lies', () => {
  test('fills a part with level courses of the true height, from a bed joint on', async () => {
    const filled = await fillPhoto(photo, asked);
    if (!filled.ok) throw new Error(filled.message);
    const page = await decodePhoto(readFileSync(output));
    // 75 mm / 76.2 at 600 dpi are 23.25 dots: the worked chain of a yard of 914.4 mm.
    expect(Math.abs(judgePeriod(page, 23.25) / 23.25 - 1)).toBeLessThan(0.002);
    // Level to the end of the page: whole rows of mortar are far lighter than rows of brick.
    const rows = Array.from({ length: page.height }, (_, y) => {
      const row = page.planes[1].subarray(y * page.width, (y + 1) * page.width);
      return row.reduce((sum, light) => sum + light) / page.width;
    });
    const course = rows.slice(0, 23);
    expect(Math.max(...course) / Math.min(...course)).toBeGreaterThan(1.8);
    expect(course.filter((light) => light > rows[0]!).length).toBeLessThan(5);
    expect(filled.warnings.map(({ code }) => code)).not.toContain('visible-seam');
  });

  test('is mended at its own size, and shows as much as can be cut upright out of it', async () => {
    const mended = await mendPhoto(photo, { output });
    if (!mended.ok) throw new Error(mended.message);
    const tile = await decodePhoto(readFileSync(output));
    expect(Math.abs(judgePeriod(tile, 25) / 25 - 1)).toBeLessThan(0.003);
    expect(mended.value.height).toBeCloseTo(25 * (mended.value.courses ?? NaN), -1);
    const seams = inspectSeams(tile);
    expect([seams.x.seamless, seams.y.seamless]).toEqual([true, true]);
  });

  test('is as large as its largest upright rectangle', async () => {
    const scaled = await scalePhoto(photo, asked);
    if (!scaled.ok) throw new Error(scaled.message);
    const { surfaceSizeMm } = scaled.value.measurement;
    // 3 mm a pixel, and the photo is 620 x 460.
    expect(surfaceSizeMm.width).toBeLessThan(3 * 620);
    expect(surfaceSizeMm.height).toBeLessThan(3 * 460);
    expect(surfaceSizeMm.width * surfaceSizeMm.height).toBeGreaterThan(0.6 * 9 * 620 * 460);
    expect(scaled.value.printSizeMm.width).toBeCloseTo(surfaceSizeMm.width / 76.2, 3);
  });
});

test('courses that stand upright are counted across, and begin where the datum lies', async () => {
  const upright = join(folder, 'boards.png');
  const level = drawWall({ bond: 'stretcher', coursePx: 25, width: 400, height: 380, seed: 772 });
  const { width, height, planes } = level.raster;
  // Turned over its diagonal: rows become columns.
  const turned = planes.map((plane) =>
    Float32Array.from({ length: plane.length }, (_, i) => {
      const [x, y] = [i % height, Math.floor(i / height)];
      return plane[x * width + y]!;
    }),
  );
  const [red, green, blue] = turned;
  if (!red || !green || !blue) throw new Error('three planes');
  const raster = { width: height, height: width, planes: [red, green, blue] as const };
  writeFileSync(upright, await encodePhoto(raster, { format: 'png' }));
  const { truth } = level;
  const measurement: Measurement = {
    method: 'courses',
    reference: findCourse('uk-metric'),
    mmPerPx: truth.mmPerPx,
    uncertaintyPercent: 0.5,
    budget: [],
    confidence: 0.95,
    rectification: null,
    lattice: {
      axis: 'x',
      course: px(truth.coursePx),
      courseOffset: truth.courseOffset,
      brick: px(truth.brickPx),
      repeat: { x: null, y: px(truth.repeat.x) },
      bond: null,
    },
  };
  await writeSidecar(await readPhoto(upright), { measurement, licence: 'CC0', credit: null });
  const filled = await fillPhoto(upright, asked);
  if (!filled.ok) throw new Error(filled.message);
  const { tile } = filled.value;
  // 23.25 dots a course, side by side; without a known repeat, two courses are cut together.
  expect(tile.widthPx / (tile.courses ?? NaN)).toBeCloseTo(23.25, 1);
  const page = await decodePhoto(readFileSync(output));
  const column = (x: number): number => {
    let sum = 0;
    for (let y = 0; y < page.height; y++) sum += page.planes[1][y * page.width + x]!;
    return sum / page.height;
  };
  const columns = Array.from({ length: 23 }, (_, x) => column(x));
  expect(columns.filter((light) => light > columns[0]!).length).toBeLessThan(6);
  const mended = await mendPhoto(upright, { output });
  if (!mended.ok) throw new Error(mended.message);
  expect((mended.value.courses ?? NaN) * 25).toBeCloseTo(mended.value.width, -1);
});
