import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  cropRaster,
  dpi,
  extendPhotos,
  type ExtendPhotosOptions,
  findCourse,
  findScale,
  mendTile,
  parsePrintSize,
  parseRealSize,
} from '@gaugerod/core';
import { drawTexture, drawWall, encodePhoto, type WallOptions } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-extend-'));
const output = join(folder, 'large.png');
const course = findCourse('uk-metric');

// UK metric brick: a course of 75 mm (BS EN 771-1 work size 65 mm and a 10 mm joint).
const walls: Readonly<Record<string, WallOptions>> = {
  'wall.png': { coursePx: 25, width: 400, height: 300, seed: 31 },
  'other.png': { coursePx: 21, width: 380, height: 280, exposure: 0.7, warmth: 0.1, seed: 32 },
  'flemish.png': { bond: 'flemish', coursePx: 25, width: 420, height: 300, seed: 33 },
};

beforeAll(async () => {
  for (const [name, wall] of Object.entries(walls)) {
    const { raster } = drawWall(wall);
    writeFileSync(join(folder, name), await encodePhoto(raster, { format: 'png' }));
  }
  const { raster } = drawTexture({ texture: 'gravel', width: 200, height: 160, seed: 5 });
  writeFileSync(join(folder, 'gravel.png'), await encodePhoto(raster, { format: 'png' }));
  const grey = { width: 60, height: 50, channels: 3, background: '#8a7d6b' } as const;
  await sharp({ create: grey }).toFile(join(folder, 'grey.png'));
});

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

const extend = (
  names: readonly string[],
  options: Omit<ExtendPhotosOptions, 'output'>,
): ReturnType<typeof extendPhotos> =>
  extendPhotos(
    names.map((name) => join(folder, name)),
    { ...options, output },
  );

test('a real size is made as fine as the photo, and a little more for whole repeats', async () => {
  const made = await extend(['wall.png'], { course, realSize: parseRealSize('3x2m') });
  if (!made.ok) throw new Error(made.message);
  const { mmPerPx, realSizeMm, roundedPercent, method, courses } = made.value;
  expect(method).toBe('bricks');
  // 75 mm on 25 px.
  expect(Math.abs((mmPerPx ?? 0) / 3 - 1)).toBeLessThan(0.01);
  // Stretcher bond repeats after 225 mm along and two courses, 150 mm, up: 14 and 14 of them.
  expect(Math.abs((realSizeMm?.width ?? 0) / 3150 - 1)).toBeLessThan(0.003);
  expect(Math.abs((realSizeMm?.height ?? 0) / 2100 - 1)).toBeLessThan(0.003);
  expect(Math.abs(roundedPercent.x - 5)).toBeLessThan(0.3);
  expect(courses).toBe(28);
});

test('a size on paper is made at print resolution, which the file carries', async () => {
  const made = await extend(['wall.png'], {
    course,
    scale: findScale('N-UK'),
    size: parsePrintSize('12x9mm'),
  });
  if (!made.ok) throw new Error(made.message);
  const { width, height, density } = await sharp(output).metadata();
  // 600 dpi are 23622 pixels a metre in pHYs, read back as 600 (PNG, third edition, 11.3.4.3).
  expect(density).toBe(600);
  // 1:148: a repeat of 225 x 150 mm is 1.520 x 1.014 mm of paper, 35.91 x 23.94 dots; 8 and 9 of them.
  expect([width, height]).toEqual([287, 215]);
  expect(made.value.paperSizeMm?.width).toBeCloseTo((287 * 25.4) / 600, 3);
});

test('several photos of one wall are joined, their scale and light made one', async () => {
  const made = await extend(['wall.png', 'other.png'], {
    course,
    realSize: parseRealSize('3x2m'),
  });
  if (!made.ok) throw new Error(made.message);
  expect(made.value.photos.map(({ bond }) => bond)).toEqual(['stretcher', 'stretcher']);
  const [one, two] = made.value.photos;
  // 75 mm on 25 and on 21 px.
  expect(Math.abs((one?.mmPerPx?.y ?? 0) / 3 - 1)).toBeLessThan(0.01);
  expect(Math.abs((two?.mmPerPx?.y ?? 0) / (75 / 21) - 1)).toBeLessThan(0.01);
  const alone = await extend(['wall.png'], { course, realSize: parseRealSize('3x2m') });
  expect(alone.ok && (made.value.bricks ?? 0) > (alone.value.bricks ?? 0)).toBe(true);
});

test('two halves of a wall in two lights make a tile in the light of the first', async () => {
  const wall = { coursePx: 25, width: 520, height: 260, exposure: 0.9, falloff: 0, vignette: 0 };
  const { raster, truth } = drawWall({ ...wall, seed: 34 });
  const half = { y: 0, width: 260, height: 260 };
  const right = cropRaster(raster, { ...half, x: 260 });
  for (const [channel, gain] of [0.95, 0.8, 0.6].entries()) {
    const plane = right.planes[channel]!;
    for (const i of plane.keys()) plane[i]! *= gain;
  }
  const left = cropRaster(raster, { ...half, x: 0 });
  for (const [name, one] of [['left.png', left] as const, ['right.png', right] as const]) {
    writeFileSync(join(folder, name), await encodePhoto(one, { format: 'png' }));
  }
  const realSize = parseRealSize('2x1.5m');
  const made = await extend(['left.png', 'right.png'], { course, realSize });
  if (!made.ok) throw new Error(made.message);
  const { courses } = made.value;
  const inPhoto = (y: number): number =>
    Math.min(...truth.bedJoints.map((bed) => Math.abs(y - bed))) / truth.coursePx;
  // A tile's top edge lies in a bed joint.
  const inTile = (y: number): number => {
    const place = (y * (courses ?? NaN)) / made.value.height;
    return Math.abs(place - Math.round(place));
  };
  const before = await bedsAndBricks(join(folder, 'left.png'), inPhoto);
  const after = await bedsAndBricks(output, inTile);
  const bricks = after.bricks.map((level, channel) => level - before.bricks[channel]!);
  const beds = after.beds.map((level, channel) => level - before.beds[channel]!);
  expect(Math.max(...bricks.map(Math.abs))).toBeLessThan(3);
  // A bed laid anew meets whole rows otherwise, which makes it paler or darker, but no other colour.
  expect(Math.max(...beds.map(Math.abs))).toBeLessThan(10);
  expect(Math.max(...beds) - Math.min(...beds)).toBeLessThan(2);
});

// Mean levels of each channel in rows near bed joints and far from them, by a row's distance in courses.
async function bedsAndBricks(
  path: string,
  fromBed: (y: number) => number,
): Promise<{ readonly beds: readonly number[]; readonly bricks: readonly number[] }> {
  const { data, info } = await sharp(path).raw().toBuffer({ resolveWithObject: true });
  const row = info.width * info.channels;
  const mean = (chosen: (distance: number) => boolean, channel: number): number => {
    let [sum, count] = [0, 0];
    for (let i = channel; i < data.length; i += info.channels) {
      if (!chosen(fromBed(Math.floor(i / row) + 0.5))) continue;
      sum += data[i]!;
      count++;
    }
    return sum / count;
  };
  // A joint is 10 mm of 75: 0.067 of a course either way.
  const beds = [0, 1, 2].map((channel) => mean((distance) => distance < 0.04, channel));
  const bricks = [0, 1, 2].map((channel) => mean((distance) => distance > 0.2, channel));
  return { beds, bricks };
}

test('photos in two bonds are refused, both named', async () => {
  const made = await extend(['wall.png', 'flemish.png'], {
    course,
    realSize: parseRealSize('3x2m'),
  });
  expect(made).toMatchObject({ ok: false, code: 'bonds-differ' });
  if (made.ok) return;
  expect(made.message).toContain('wall.png');
  expect(made.message).toContain('flemish.png');
});

test('so many times the photo is made at print resolution where a scale is given', async () => {
  const made = await extend(['wall.png'], {
    course,
    scale: findScale('N-UK'),
    times: { x: 1.5, y: 1.5 },
  });
  if (!made.ok) throw new Error(made.message);
  // 400 px at 3 mm are 1.2 m; half as much again 1.8 m: 8 repeats of 225 mm, 35.91 dots each at 1:148 and 600 dpi.
  expect(made.value.width).toBe(287);
  expect(made.value.realSizeMm?.width).toBeCloseTo((287 * 25.4 * 148) / 600, 0);
});

test('so many times the photo needs no measurement; several photos do', async () => {
  const times = { x: 2, y: 1.5 };
  const made = await extend(['gravel.png'], { times });
  expect(made).toMatchObject({
    ok: true,
    value: { width: 400, height: 240, method: 'patches', mmPerPx: null, courses: null },
  });
  const two = await extend(['gravel.png', 'wall.png'], { times });
  expect(two).toMatchObject({ ok: false, code: 'not-measured' });
});

// Bonds as in Brunskill, Brick Building in Britain: stretcher and Flemish come round after two courses,
// stack bond after one.
test.each([
  ['stretcher', 18.5, 16],
  ['flemish', 18.5, 16],
  ['stack', 22, 20],
])('N times a %s wall of whole courses holds N times as many', async (bond, coursePx, held) => {
  const height = Math.round(held * coursePx);
  const wall = { bond, coursePx, width: 300, height, offsetY: 0, courseJitter: 1.2, seed: 1 };
  const photo = await encodePhoto(drawWall(wall).raster, { format: 'png' });
  writeFileSync(join(folder, 'whole.png'), photo);
  for (const times of [2, 3]) {
    const made = await extend(['whole.png'], { times: { x: 1, y: times } });
    expect(made).toMatchObject({ ok: true, value: { courses: times * held } });
    expect(made.ok && Math.abs(made.value.roundedPercent.y)).toBeLessThan(1.5);
  }
});

test('a tile that repeats grows by its own height, whatever its joints were measured at', async () => {
  const wall = {
    bond: 'stack',
    coursePx: 18.5,
    courseJitter: 1.5,
    width: 320,
    height: 540,
    seed: 1,
  };
  const { raster, truth } = drawWall(wall);
  const joints = { axis: 'y', course: truth.coursePx, offset: truth.courseOffset } as const;
  const tile = mendTile(raster, {
    repeat: truth.repeat,
    joints: { ...joints, brick: truth.brickPx },
  });
  if (!tile.ok) throw new Error(tile.message);
  const photo = await encodePhoto(tile.value.raster, { format: 'png' });
  writeFileSync(join(folder, 'tile.png'), photo);
  const held = Math.round(tile.value.raster.height / truth.coursePx);
  const made = await extend(['tile.png'], { times: { x: 1, y: 2 } });
  const height = 2 * tile.value.raster.height;
  expect(made).toMatchObject({ ok: true, value: { courses: 2 * held, height } });
});

test('a picture of one colour grows, and is told to be one', async () => {
  const times = { x: 2, y: 2 };
  const made = await extend(['grey.png'], { times });
  expect(made.ok && made.warnings.map(({ code }) => code)).toEqual(['one-colour']);
  const gravel = await extend(['gravel.png'], { times });
  expect(gravel.ok && gravel.warnings.map(({ code }) => code)).not.toContain('one-colour');
});

test('the photo that is too small to make more of is named, whichever it is', async () => {
  const { raster } = drawWall({ coursePx: 25, width: 400, height: 190, seed: 35 });
  writeFileSync(join(folder, 'low.png'), await encodePhoto(raster, { format: 'png' }));
  const refused = await extend(['wall.png', 'low.png'], {
    course,
    scale: findScale('1:450'),
    dpi: dpi(300),
    size: parsePrintSize('20x20mm'),
  });
  // At 1:450 and 300 dpi a dot is 38.1 mm: of 190 px of 3 mm that makes 15.
  expect(refused).toMatchObject({ ok: false, code: 'too-small' });
  expect(!refused.ok && refused.message).toMatch(/low\.png: a picture of 3[12] x 15 px/);
});

test('less than the photo shows is refused, with what would cut it', async () => {
  const made = await extend(['wall.png'], { course, realSize: parseRealSize('600x300mm') });
  expect(made).toMatchObject({ ok: false, code: 'not-larger' });
  expect(!made.ok && made.hint).toContain('fill');
});

test('more than can be held is refused before it is made', async () => {
  const made = await extend(['wall.png'], { course, realSize: parseRealSize('500x500m') });
  expect(made).toMatchObject({ ok: false, code: 'too-large' });
});

test('a texture that was said to show courses and shows none is refused', async () => {
  const made = await extend(['gravel.png'], { course, times: { x: 2, y: 2 } });
  expect(made).toMatchObject({ ok: false, code: 'no-courses' });
  expect(!made.ok && made.hint).toContain('--times');
});
