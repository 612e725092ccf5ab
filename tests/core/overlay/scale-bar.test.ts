import { createRaster, type Point, type Raster, renderOverlay, toLevelPoint } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { measurementOf } from '../../support/known-wall.js';

// On a grey photo, the row of the scale bar: from the first pixel that is no grey to the last. The
// bar has a casing of 1.5 units on either side.
function barOf(page: Raster, window: { left: number; right: number; foot: number }): number {
  const [red] = page.planes;
  let longest = 0;
  for (let y = window.foot - 60; y < window.foot; y++) {
    let [first, last] = [-1, -1];
    let whites = 0;
    for (let x = window.left; x < window.right; x++) {
      const light = red[y * page.width + x]!;
      if (Math.abs(light - 0.375) < 0.01) continue;
      if (first < 0) first = x;
      last = x;
      if (light > 0.99) whites++;
    }
    if (whites > 0.3 * (last - first)) longest = Math.max(longest, last - first + 1);
  }
  return longest - 3;
}

// Middles of the white patches of a scale bar: the two largest, from the left.
function whiteSpots(
  page: Raster,
  window: { left: number; right: number; top: number; foot: number },
): Point[] {
  const { width, planes } = page;
  const seen = new Set<number>();
  const spots: { x: number; y: number; size: number }[] = [];
  const isWhite = (x: number, y: number): boolean =>
    x >= window.left &&
    x < window.right &&
    y >= window.top &&
    y < window.foot &&
    planes[0][y * width + x]! > 0.99 &&
    !seen.has(y * width + x);
  for (let y = window.top; y < window.foot; y++) {
    for (let x = window.left; x < window.right; x++) {
      const open = [[x, y] as const];
      let [sumX, sumY, size] = [0, 0, 0];
      for (let next = open.pop(); next; next = open.pop()) {
        const [u, v] = next;
        if (!isWhite(u, v)) continue;
        seen.add(v * width + u);
        sumX += u + 0.5;
        sumY += v + 0.5;
        size++;
        open.push([u + 1, v], [u - 1, v], [u, v + 1], [u, v - 1]);
      }
      if (size > 0) spots.push({ x: sumX / size, y: sumY / size, size });
    }
  }
  const [a, b] = spots.sort((p, q) => q.size - p.size);
  return [a, b].filter((spot) => spot !== undefined).sort((p, q) => p.x - q.x);
}

test.each([
  // A bar takes two fifths of the photo's width at most: 1, 2 or 5 with noughts (ISO 3 calls
  // that series R 10/3, rounded).
  { mm: 1.2, bar: 200 },
  { mm: 0.05, bar: 20 },
  { mm: 5.3, bar: 2000 },
  { mm: 1.25, bar: 500 },
])('at $mm mm a pixel a scale bar of $bar mm is as long as that', ({ mm, bar }) => {
  const photo = createRaster(1000, 500);
  photo.planes.forEach((plane) => plane.fill(0.5));
  const page = renderOverlay(photo, {
    measurement: {
      ...measurementOf(drawWall()),
      mmPerPx: { x: mm, y: mm },
      rectification: null,
      lattice: null,
    },
    joints: null,
    spans: [],
    corners: null,
  });
  const length = barOf(page, { left: 20, right: 1000, foot: 514 });
  expect(Math.abs(length - bar / mm)).toBeLessThan(1.5);
});

test('on a wall that falls away a scale bar lies along it, foreshortened as the wall is', () => {
  const wall = drawWall({
    width: 1000,
    height: 700,
    coursePx: 40,
    rotation: 5,
    tiltX: 14,
    seed: 77,
  });
  const { mmPerPx, rectification } = wall.truth;
  const photo = createRaster(1000, 700);
  photo.planes.forEach((plane) => plane.fill(0.5));
  const page = renderOverlay(photo, {
    measurement: { ...measurementOf(wall), lattice: null },
    joints: null,
    spans: [],
    corners: null,
  });
  // The middles of the bar's white parts, brought back to the level wall.
  const parts = whiteSpots(page, { left: 20, right: 1000, top: 560, foot: 714 }).map(({ x, y }) =>
    toLevelPoint(rectification, photo, { x: x - 14, y: y - 14 }),
  );
  expect(parts).toHaveLength(2);
  const [second, fourth] = parts;
  if (second === undefined || fourth === undefined) throw new Error('parts are missing');
  // Of five parts of 100 mm the second and the fourth are white: 200 mm from middle to middle, level.
  expect(Math.abs((fourth.x - second.x) * mmPerPx.x - 200)).toBeLessThan(2);
  expect(Math.abs(fourth.y - second.y)).toBeLessThan(1);
});
