import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRaster, mendPhoto, type Raster } from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { afterAll, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-upright-'));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

function onItsSide({ width, height, planes }: Raster): Raster {
  const out = createRaster(height, width);
  for (const [channel, plane] of planes.entries()) {
    for (let at = 0; at < plane.length; at++) {
      const x = at % width;
      out.planes[channel]![x * height + (at - x) / width] = plane[at]!;
    }
  }
  return out;
}

test('courses that stand upright are mended to whole ones without being told', async () => {
  const wall = drawWall({ bond: 'flemish', coursePx: 25, width: 500, height: 410, seed: 3 });
  const photo = join(folder, 'wall.png');
  writeFileSync(photo, await encodePhoto(onItsSide(wall.raster), { format: 'png' }));
  const mended = await mendPhoto(photo, { output: join(folder, 'tile.png'), axis: 'x' });
  if (!mended.ok) throw new Error(mended.message);
  const { width, height, courses, x } = mended.value;
  // 25 px a course, an even number of them: flemish bond comes round after two.
  expect(courses).toBe(Math.round(width / 25));
  expect(Math.round(width / 25) % 2).toBe(0);
  expect(Math.abs(width - 25 * (courses ?? NaN))).toBeLessThanOrEqual(1.5);
  expect(height).toBe(500);
  expect(x.seamless).toBe(true);
});
