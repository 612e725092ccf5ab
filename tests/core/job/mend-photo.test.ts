import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRaster, findCourse, inspectPhoto, mendPhoto, type Raster } from '@gaugerod/core';
import { drawTexture, drawWall, encodePhoto } from '@gaugerod/fixtures';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-mend-'));
const output = join(folder, 'tile.png');

// Its right half is its left in a mirror.
function mirrored({ width, height, planes }: Raster): Raster {
  const out = createRaster(2 * width, height);
  for (const [channel, plane] of planes.entries()) {
    for (let y = 0; y < height; y++) {
      const row = plane.subarray(y * width, (y + 1) * width);
      out.planes[channel]!.set(row, 2 * y * width);
      out.planes[channel]!.set(row.toReversed(), (2 * y + 1) * width);
    }
  }
  return out;
}

beforeAll(async () => {
  const gravel = drawTexture({ texture: 'gravel', width: 220, height: 180, seed: 5 });
  const wall = drawWall({ bond: 'stretcher', coursePx: 23, width: 330, height: 370, seed: 1 });
  const shadowed = drawWall({
    coursePx: 22,
    width: 480,
    height: 400,
    shadow: 0.6,
    sun: 0.6,
    seed: 57,
  });
  for (const [name, raster] of [
    ['mirrored.png', mirrored(gravel.raster)],
    ['doubled.png', mirrored(wall.raster)],
    ['shadowed.png', shadowed.raster],
    ['gravel.png', gravel.raster],
  ] as const) {
    writeFileSync(join(folder, name), await encodePhoto(raster, { format: 'png' }));
  }
});

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

test('a tile whose stones come out double at its edges is warned of', async () => {
  const made = await mendPhoto(join(folder, 'mirrored.png'), { output });
  if (!made.ok) throw new Error(made.message);
  expect(made.warnings.map(({ code }) => code)).toContain('mirrored');
  const upright = await mendPhoto(join(folder, 'mirrored.png'), { output, axis: 'y' });
  expect(upright.ok && upright.warnings.map(({ code }) => code)).not.toContain('mirrored');
});

test('a wall of two halves in a mirror is one still once its ends are cut into one another', async () => {
  const made = await mendPhoto(join(folder, 'doubled.png'), { output });
  if (!made.ok) throw new Error(made.message);
  expect([made.value.joins.x, made.value.joins.y]).not.toContain(null);
  expect(made.warnings.map(({ code }) => code)).toContain('mirrored');
});

test('a hard shadow is told to repeat, and what would do about it', async () => {
  const made = await mendPhoto(join(folder, 'shadowed.png'), { output });
  if (!made.ok) throw new Error(made.message);
  const told = made.warnings.find(({ code }) => code === 'hard-shadow');
  expect(told?.message).toMatch(/repeat with the tile; photograph the wall under cloud/);
});

test('where no courses are found, the hint names nothing that cannot be given here', async () => {
  const course = findCourse('uk-metric');
  for (const refused of [
    await mendPhoto(join(folder, 'gravel.png'), { output, course }),
    await inspectPhoto(join(folder, 'gravel.png'), { course }),
  ]) {
    expect(refused).toMatchObject({ ok: false, code: 'no-courses' });
    expect(!refused.ok && refused.hint).not.toMatch(/span|--axis|count/);
  }
});

// Six courses, three times the two that stretcher bond comes round after, and nothing over; darker
// towards the foot.
function darkFoot(): Raster {
  const size = { coursePx: 32, width: 480, height: 192, offsetX: 0, offsetY: 0 };
  const { raster } = drawWall({ ...size, falloff: 0, vignette: 0, seed: 6 });
  for (const plane of raster.planes) {
    for (let y = 111; y < 192; y++) {
      for (let x = 0; x < 480; x++) plane[y * 480 + x]! *= 1 - (0.7 * (y - 110)) / 82;
    }
  }
  return raster;
}

describe('a wall that its bond takes all of', () => {
  const path = join(folder, 'dark-foot.png');
  beforeAll(async () => {
    writeFileSync(path, await encodePhoto(darkFoot(), { format: 'png' }));
  });

  test.each(['auto', 'cut'] as const)(
    'and whose seam shows is mended (%s) after fewer courses, and says so',
    async (method) => {
      const made = await mendPhoto(path, { output, method, even: false });
      if (!made.ok) throw new Error(made.message);
      const { courses, y, why, keptPercent } = made.value;
      expect(courses).toBe(4);
      expect(keptPercent).toBeGreaterThan(60);
      expect(y.seamless).toBe(true);
      expect(why).toMatch(/one above the other a tile of 19\d px would show a seam \(score \d/);
      expect(made.warnings.map(({ code }) => code)).not.toContain('visible-seam');
    },
  );

  test('is not called cut where all of it is to stay', async () => {
    const made = await mendPhoto(path, { output, method: 'cut', keep: 95, even: false });
    if (!made.ok) throw new Error(made.message);
    expect(made.value).toMatchObject({ courses: 6, method: 'none', joins: { x: null, y: null } });
    const codes = made.warnings.map(({ code }) => code);
    expect(codes).toContain('not-joined');
    expect(codes).toContain('visible-seam');
    expect(codes).not.toContain('already-seamless');
  });
});
