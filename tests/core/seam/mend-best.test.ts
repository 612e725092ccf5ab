import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { mendBest } from '../../../packages/core/src/seam/mend/mend-best.js';

test('of tiles that show no seam the longest is taken, not the least one', () => {
  const size = { coursePx: 16, width: 288, height: 320, offsetX: 0, offsetY: 0 };
  const { raster } = drawWall({ ...size, falloff: 0, vignette: 0, seed: 9 });
  // Darker towards the foot, so that all of it shows a seam.
  for (const plane of raster.planes) {
    for (let y = 200; y < 320; y++) {
      for (let x = 0; x < 288; x++) plane[y * 288 + x]! *= 1 - (0.7 * (y - 199)) / 121;
    }
  }
  const joints = { axis: 'y', course: 16, offset: 0, brick: 48 } as const;
  const made = mendBest(raster, {
    repeat: { x: 48, y: 32 },
    joints,
    axis: 'y',
    keep: 20,
    meets: { x: true, y: false },
  });
  if (!made.ok) throw new Error(made.message);
  const { seams, longer, tile } = made.value;
  expect(seams.y.seamless).toBe(true);
  expect(longer.y).not.toBeNull();
  // Courses by the pair: half of the longer tile or more, where a third showed least.
  expect(tile.raster.height).toBeGreaterThan((longer.y?.length ?? 0) / 2);
});
