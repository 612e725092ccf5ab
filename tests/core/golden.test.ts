import {
  evenLight,
  findCourses,
  mendTile,
  createRaster,
  dpi,
  type Raster,
  toPrintResolution,
  toRows,
} from '@gaugerod/core';
import { drawSlates, drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

// Its seams brought to the middle, where an eye and a window look.
function halfOffset({ width, height, planes }: Raster): Raster {
  const out = createRaster(width, height);
  planes.forEach((plane, channel) => {
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const from = ((y + (height >> 1)) % height) * width + ((x + (width >> 1)) % width);
        out.planes[channel]![y * width + x] = plane[from]!;
      }
    }
  });
  return out;
}

function mended(raster: Raster): Raster {
  const found = findCourses(raster);
  if (!found.ok) throw new Error(found.message);
  const { repeat, brick, course, courseOffset } = found.value;
  const even = evenLight(raster, {
    along: { x: true, y: true },
    unit: { x: brick, y: course },
    joints: { axis: 'y', course, offset: courseOffset },
  });
  const tile = mendTile(even.raster, { repeat });
  if (!tile.ok) throw new Error(tile.message);
  return halfOffset(tile.value.raster);
}

test('Flemish brick, darker to one side, is mended as it was', async () => {
  const wall = { bond: 'flemish', coursePx: 16, width: 300, height: 220, falloff: 0.4 } as const;
  await expect(toRows(mended(drawWall({ ...wall, seed: 4101 }).raster))).toMatchGolden('flemish');
});

test('English brick in dark mortar is mended as it was', async () => {
  const wall = { bond: 'english', coursePx: 18, width: 280, height: 230, mortar: 'dark' } as const;
  await expect(toRows(mended(drawWall({ ...wall, seed: 4102 }).raster))).toMatchGolden('english');
});

test('slates come to print resolution as they did', async () => {
  const { raster } = drawSlates({ coursePx: 60, width: 900, height: 700, seed: 4103 });
  const print = toPrintResolution(raster, { factor: { x: 0.3, y: 0.3 } });
  await expect(toRows(print, dpi(600))).toMatchGolden('slates');
});
