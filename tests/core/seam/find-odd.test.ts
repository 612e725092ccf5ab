import { createRaster, findOdd, type Raster } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

const { raster } = drawWall({
  coursePx: 24,
  width: 432,
  height: 288,
  burnt: 0,
  lime: 0,
  soot: 0,
  spread: 0.5,
  vignette: 0,
  seed: 5,
});

// A brick of 215 x 65 mm at 75 mm to 24 px is 69 x 21 px.
const brick = { x: 150, y: 120, width: 69, height: 21 };

function painted(light: readonly [number, number, number], bricks = [brick]): Raster {
  const out = createRaster(raster.width, raster.height);
  for (const [channel, plane] of raster.planes.entries()) {
    out.planes[channel]?.set(plane);
    for (const { x: left, y: top, width, height } of bricks) {
      for (let y = top; y < top + height; y++) {
        for (let x = left; x < left + width; x++) {
          out.planes[channel]![y * raster.width + x]! *= light[channel] ?? 1;
        }
      }
    }
  }
  return out;
}

test('a wall of ordinary bricks holds nothing odd', () => {
  expect(findOdd(raster)).toEqual([]);
});

test.each([
  ['darker', [0.2, 0.2, 0.2]],
  ['lighter', [3, 3, 3]],
  ['bluer', [0.5, 1.1, 3]],
] as const)('one %s brick is found where it is', (way, light) => {
  const [odd, ...others] = findOdd(painted(light));
  expect(others).toEqual([]);
  expect(odd?.way).toBe(way);
  expect(odd?.salience).toBeGreaterThan(1);
  const middle = {
    x: (odd?.x ?? 0) + (odd?.width ?? 0) / 2,
    y: (odd?.y ?? 0) + (odd?.height ?? 0) / 2,
  };
  expect(Math.abs(middle.x - (brick.x + brick.width / 2))).toBeLessThan(brick.width / 2);
  expect(Math.abs(middle.y - (brick.y + brick.height / 2))).toBeLessThan(brick.height);
});

test('bricks of a kind are not odd, however they differ from the rest', () => {
  const places = [
    [20, 24],
    [170, 24],
    [320, 96],
    [60, 168],
    [260, 216],
  ] as const;
  const bricks = places.map(([x, y]) => ({ ...brick, x, y }));
  expect(findOdd(painted([0.2, 0.2, 0.2], bricks))).toEqual([]);
});

// The same brick, with the picture begun in its middle: it lies half at the right, half at the left.
test('a brick that lies over the wrap is told once', () => {
  const from = painted([0.2, 0.2, 0.2]);
  const out = createRaster(from.width, from.height);
  const by = brick.x + (brick.width >> 1);
  for (const [channel, plane] of from.planes.entries()) {
    for (let at = 0; at < plane.length; at++) {
      const row = at - (at % from.width);
      out.planes[channel]![at] = plane[row + ((at + by) % from.width)]!;
    }
  }
  expect(findOdd(out)).toHaveLength(1);
});

test.each([
  [1, 1],
  [1, 400],
  [40, 31],
  [64, 64],
])('a picture of one colour, %i x %i px, holds nothing odd', (width, height) => {
  expect(findOdd(createRaster(width, height))).toEqual([]);
});
