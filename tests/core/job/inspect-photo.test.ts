import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  cropRaster,
  findCourse,
  findScale,
  inspectPhoto,
  inspectSeams,
  measurePhoto,
  mendTile,
  parseDpi,
  type Raster,
} from '@gaugerod/core';
import { drawTexture, drawWall, encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-inspect-'));
const photo = join(folder, 'wall.png');
const plain = join(folder, 'plain.png');

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

// A stain that keeps a tenth of the light.
function stain({ width, planes }: Raster): void {
  for (const plane of planes) {
    for (let y = 130; y < 160; y++) plane.fill(0.02, y * width + 200, y * width + 240);
  }
}

beforeAll(async () => {
  const { raster } = drawWall({
    coursePx: 25,
    width: 450,
    height: 300,
    burnt: 0,
    lime: 0,
    soot: 0,
    spread: 0.5,
    seed: 12,
  });
  stain(raster);
  writeFileSync(photo, await encodePhoto(raster, { format: 'png' }));
  const blank = sharp({ create: { width: 64, height: 64, channels: 3, background: '#808080' } });
  writeFileSync(plain, await blank.png().toBuffer());
});

test('a stain will repeat every so many millimetres on paper', async () => {
  const course = findCourse('uk-metric');
  const report = await inspectPhoto(photo, { course, scale: findScale('OO') });
  if (!report.ok) throw new Error(report.message);
  const { odd, printSizeMm, verdict } = report.value;
  // 75 mm on 25 px are 3 mm a pixel; 450 px are 1350 mm, at 1:76.2 17.72 mm of paper.
  expect(printSizeMm?.width).toBeCloseTo(17.72, 0);
  expect(odd[0]?.everyMm?.x).toBeCloseTo(17.72, 0);
  expect(odd[0]?.message).toMatch(
    /^a darker place, .* will repeat every 1[78].* mm across and .* mm down on paper$/,
  );
  expect(verdict).toContain('will catch the eye at each repeat');
});

test('without a scale it repeats every so many pixels', async () => {
  const report = await inspectPhoto(photo, { axis: 'x' });
  if (!report.ok) throw new Error(report.message);
  const { odd, printSizeMm } = report.value;
  expect(printSizeMm).toBeNull();
  expect(odd[0]).toMatchObject({ everyPx: { x: 450, y: null }, everyMm: null });
  expect(odd[0]?.message).toMatch(/will repeat every 450 px across$/);
});

test('a scale without anything that says how big the picture is, is refused with what would help', async () => {
  const report = await inspectPhoto(photo, { scale: findScale('OO') });
  expect(report.ok).toBe(false);
  if (!report.ok) expect(report.hint).toContain('--course');
});

test('the picture of a repeat carries the resolution at which its tiling is true', async () => {
  const picture = join(folder, 'seams.png');
  const course = findCourse('uk-metric');
  const scale = findScale('OO');
  await inspectPhoto(photo, { course, scale, dpi: parseDpi('254', 'dpi'), picture });
  // 254 dpi are 10,000 pixels a metre, which pHYs holds exactly (PNG, third edition, 11.3.4.3).
  const { density, width } = await sharp(readFileSync(picture)).metadata();
  expect(density).toBe(254);
  // Three times 17.7 mm at ten dots to the millimetre, beside the picture of 450 px.
  expect(Math.abs(width - (3 * 177 + 450))).toBeLessThan(70);
});

test('a picture of one colour is told to be one', async () => {
  const report = await inspectPhoto(plain);
  if (!report.ok) throw new Error(report.message);
  expect(report.value.odd).toEqual([]);
  expect(report.warnings.map(({ code }) => code)).toContain('one-colour');
});

// Level light: what is left at a cut is the wall itself.
const wall = { coursePx: 40, width: 480, height: 420, falloff: 0, vignette: 0 } as const;

async function inspectCut(
  from: Raster,
  cut: {
    readonly x?: number;
    readonly y?: number;
    readonly width?: number;
    readonly height?: number;
  },
): ReturnType<typeof inspectPhoto> {
  const path = join(folder, 'cut.png');
  const piece = cropRaster(from, { x: 0, y: 0, width: from.width, height: from.height, ...cut });
  writeFileSync(path, await encodePhoto(piece, { format: 'png' }));
  return inspectPhoto(path);
}

test('less than two courses are no tile, though their ends meet', async () => {
  let met = 0;
  for (const seed of [1, 2, 3, 4]) {
    const { raster, truth } = drawWall({ ...wall, seed });
    const [, first = 0] = truth.bedJoints;
    for (const held of [1.2, 1.5, 1.7]) {
      const report = await inspectCut(raster, {
        y: Math.round(first),
        height: Math.round(40 * held),
      });
      if (!report.ok) throw new Error(report.message);
      const { y, verdict } = report.value;
      expect(y.seamless).toBe(false);
      if (y.seamScore > 0) continue;
      met++;
      expect(verdict).toMatch(/too small to tell/);
      expect(report.warnings.map(({ code }) => code)).toContain('too-small-to-tell');
    }
  }
  expect(met).toBeGreaterThan(1);
});

test('nor are less than two bricks side by side', async () => {
  // 225 mm of brick and joint to 75 mm of course (BS EN 771-1): 120 px to 40.
  const { raster } = drawWall({ ...wall, seed: 3 });
  const report = await inspectCut(raster, { x: 30, width: 180 });
  expect(report).toMatchObject({ ok: true, value: { x: { seamless: false, seamScore: 0 } } });
  expect(report.ok && report.value.verdict).toContain('too small to tell side by side');
});

test.each([2, 3])('%i whole courses are judged by how they meet', async (held) => {
  const { raster, truth } = drawWall({ ...wall, seed: 2 });
  const [, first = 0] = truth.bedJoints;
  const report = await inspectCut(raster, { y: Math.round(first), height: 40 * held });
  expect(report).toMatchObject({ ok: true, value: { y: { seamless: true } } });
});

test.each(['render', 'gravel', 'sand', 'stucco'] as const)(
  'the grain of %s has no courses to count',
  async (texture) => {
    const light = { falloff: 0, vignette: 0, clouds: 0, shadow: 0 };
    const { raster } = drawTexture({ texture, width: 256, height: 256, seed: 4, ...light });
    // What shows a seam would be called no tile either way.
    const made = mendTile(raster, { repeat: { x: null, y: null } });
    if (!made.ok) throw new Error(made.message);
    const { x, y } = inspectSeams(made.value.raster);
    expect([x.seamless, y.seamless]).toEqual([true, true]);
    const report = await inspectCut(made.value.raster, {});
    expect(report).toMatchObject({
      ok: true,
      value: { x: { seamless: x.seamless }, y: { seamless: y.seamless } },
    });
  },
);

test('where courses are known, one whole course is judged and one and a half are not', async () => {
  const whole = join(folder, 'whole.png');
  const { raster, truth } = drawWall({ ...wall, seed: 2 });
  writeFileSync(whole, await encodePhoto(raster, { format: 'png' }));
  await measurePhoto(whole, { course: findCourse('uk-metric'), save: true });
  const kept = JSON.parse(readFileSync(join(folder, 'whole.surface.json'), 'utf8')) as {
    readonly photo: object;
    readonly lattice: object;
  };
  const [, first = 0] = truth.bedJoints;
  const inspectKnown = async (height: number): ReturnType<typeof inspectPhoto> => {
    const path = join(folder, 'known.png');
    const piece = cropRaster(raster, { x: 0, y: Math.round(first), width: raster.width, height });
    writeFileSync(path, await encodePhoto(piece, { format: 'png' }));
    const sha256 = createHash('sha256').update(readFileSync(path)).digest('hex');
    const { width } = piece;
    const photo = { ...kept.photo, sha256, width, height };
    const known = { ...kept, photo, rectification: null };
    writeFileSync(join(folder, 'known.surface.json'), JSON.stringify(known));
    return inspectPhoto(path);
  };
  const one = await inspectKnown(40);
  expect(one.ok && one.warnings.map(({ code }) => code)).not.toContain('too-small-to-tell');
  const half = await inspectKnown(48);
  expect(half).toMatchObject({ ok: true, value: { y: { seamless: false, seamScore: 0 } } });
});
