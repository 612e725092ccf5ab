import { createRaster, mendTile, type Raster } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';

const brick = 48;
const course = 20;
const joint = 4;

// Marsaglia (2003), Xorshift RNGs, 32 bits.
function lots(seed: number): () => number {
  let state = seed;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

// Stretchers, each of one colour of its own, in black joints. Of the wall's first brick and course so
// many pixels are cut off.
const cutOff = { x: 20, y: 6 };

function stretchers(width: number, height: number): Raster {
  const raster = createRaster(width, height);
  const lot = lots(77);
  const colours = new Map<string, readonly number[]>();
  for (let y = 0; y < height; y++) {
    const row = Math.floor((y + cutOff.y) / course);
    const down = y + cutOff.y - row * course;
    for (let x = 0; x < width; x++) {
      const place = x + cutOff.x + (row % 2 === 0 ? 0 : brick / 2);
      const along = place % brick;
      const near = Math.min(along, brick - 1 - along, down, course - 1 - down);
      const name = `${row} ${Math.floor(place / brick)}`;
      const colour = colours.get(name) ?? [0.3 + 0.5 * lot(), 0.2 + 0.3 * lot(), 0.2 + 0.3 * lot()];
      colours.set(name, colour);
      for (const [channel, plane] of raster.planes.entries()) {
        plane[y * width + x] = near < joint / 2 ? 0.02 : colour[channel]!;
      }
    }
  }
  return raster;
}

// The bricks along a row, around its end: how long each is, and by how much its colour varies.
function bricksAlong({ width, planes }: Raster, y: number): { length: number; varies: number }[] {
  const line = Array.from({ length: width }, (_, x) => planes[0][y * width + x]!);
  const first = line.findIndex((light, x) => light < 0.1 && line[(x + 1) % width]! >= 0.1);
  const bricks: { length: number; varies: number }[] = [];
  let own: number[] = [];
  for (let i = 1; i <= width; i++) {
    const light = line[(first + i) % width]!;
    if (light >= 0.1) own.push(light);
    if (light < 0.1 && own.length > 0) {
      // The edge of a brick is half mortar.
      const inner = own.slice(2, -2);
      const varies = Math.max(...inner) - Math.min(...inner);
      bricks.push({ length: own.length, varies });
      own = [];
    }
  }
  return bricks;
}

const laid = { course, brick, axis: 'y', offset: course - cutOff.y } as const;

describe.each([
  ['a fifth of a brick and two fifths of a course are left over', 6 * brick + 10, 12 * course + 8],
  ['nothing is left over', 6 * brick, 12 * course],
])('a wall of which %s', (_, width, height) => {
  const wall = stretchers(width, height);
  const repeat = { x: brick, y: 2 * course };
  const made = mendTile(wall, { repeat, joints: laid, keep: 90 });
  if (!made.ok) throw new Error(made.message);
  const { raster } = made.value;

  test('has bricks in it that no cut could leave whole', () => {
    expect(made.value.healed.replaced).toBeGreaterThan(0);
    expect(made.value.healed.left).toBe(0);
  });

  test('keeps nine tenths', () => {
    expect(made.value.keptPercent).toBeGreaterThanOrEqual(90);
  });

  test('is of whole bricks, each of one colour, around its end', () => {
    for (let row = 0; row < raster.height / course; row++) {
      const bricks = bricksAlong(
        raster,
        (row * course + 1.5 * course - cutOff.y - made.value.start.y) % raster.height,
      );
      for (const { length, varies } of bricks) {
        expect(Math.abs(length - (brick - joint))).toBeLessThanOrEqual(2);
        // Colours of bricks lie up to 0.5 apart; light that is evened over a seam runs on a little.
        expect(varies).toBeLessThan(0.05);
      }
    }
  });
});
