import { expect, test } from 'vitest';
import { findRun, listRuns } from '../../../../packages/core/src/finish/weather/find-runs.js';
import { layBricks } from '../../../../packages/core/src/finish/weather/lay-bricks.js';
import { seeHollows } from '../../../../packages/core/src/finish/weather/see-hollows.js';
import { createRaster } from '@gaugerod/core';

const size = { width: 20, height: 10, apart: { x: 20, y: 10 } };

test('a brick over the end of a tile has its middle in one place, told from either end', () => {
  const seen = {
    likeness: new Float32Array(200),
    boxes: [{ left: 14, right: 24, top: 0, bottom: 10 }],
    joint: 1,
  };
  const { labels, x, y } = layBricks(seen, { ...size, meets: { x: true, y: true } });
  const [right, left] = [labels[5 * 20 + 17]!, labels[5 * 20 + 2]!];
  // Its middle is at 19; the next copy begins at 20, and from there it is at -1.
  expect([x[right], x[left], y[right], y[left]]).toEqual([19, -1, 5, 5]);
  const alone = layBricks(seen, { ...size, meets: { x: false, y: false } });
  expect(alone.labels[5 * 20 + 2]).toBe(0);
});

test('within a brick nothing is joint, however pale; between two there is one, however dark', () => {
  const boxes = [
    { left: 0, right: 10, top: 0, bottom: 10 },
    { left: 10, right: 20, top: 0, bottom: 10 },
  ];
  const pale = layBricks(
    { likeness: new Float32Array(200).fill(0.9), boxes, joint: 2 },
    { ...size, meets: { x: true, y: true } },
  );
  expect([pale.joints[5 * 20 + 5], pale.joints[5 * 20 + 9]]).toEqual([0, expect.closeTo(0.9, 5)]);
  const dark = layBricks(
    { likeness: new Float32Array(200), boxes, joint: 2 },
    { ...size, meets: { x: true, y: true } },
  );
  expect([dark.joints[5 * 20 + 5], dark.joints[5 * 20 + 9]]).toEqual([0, 0.5]);
});

test('copies follow one another in runs, on either side of the datum', () => {
  const copies = { starts: [0, 3, 7], period: 10 };
  expect(findRun(copies, -1)).toEqual({ start: -3, end: 0 });
  expect(findRun(copies, 23)).toEqual({ start: 23, end: 27 });
  const runs = listRuns(copies, -2, 12);
  expect(runs.map(({ start }) => start)).toEqual([-3, 0, 3, 7]);
});

test('a hollow is what is darker than round about, over the ends too', () => {
  const raster = createRaster(40, 40);
  for (const plane of raster.planes) {
    plane.fill(0.4);
    for (let i = 0; i < 40; i++) plane[i] = 0.1;
  }
  const hollows = seeHollows(raster, { x: 5, y: 5 });
  expect(hollows[7]).toBe(1);
  expect(Math.max(...hollows.subarray(40, 80))).toBe(0);
  expect(Math.max(...hollows.subarray(800, 840))).toBe(0);
});
