import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findCourse, findScale, inspectPhoto, parseDpi, type Raster } from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
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
