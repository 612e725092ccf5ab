import { createRaster, cropRaster, extendTile, type Raster } from '@gaugerod/core';
import { drawTexture } from '@gaugerod/fixtures';
import { describe, expect, test } from 'vitest';
import { noisePicture } from '../../support/noise-picture.js';

// Root mean square of steps from each row to the one above, around the end.
function rowSteps({ width, height, planes }: Raster): number[] {
  const green = planes[1];
  return Array.from({ length: height }, (_, y) => {
    const above = ((y + height - 1) % height) * width;
    let sum = 0;
    for (let x = 0; x < width; x++) {
      sum += (Math.sqrt(green[y * width + x]!) - Math.sqrt(green[above + x]!)) ** 2;
    }
    return Math.sqrt(sum / width);
  });
}

test('gravel without courses is sewn of patches, and meets itself', () => {
  const { raster } = drawTexture({ texture: 'gravel', width: 160, height: 140, seed: 9 });
  const made = extendTile([{ raster, lattice: null }], {
    width: 320,
    height: 300,
    repeats: { x: null, y: null },
  });
  if (!made.ok) throw new Error(made.message);
  const tile = made.value;
  expect(tile.method).toBe('patches');
  // Nineteen rows in twenty have no larger step inside; pieces cut at random have where they meet.
  const [first = 0, ...inside] = rowSteps(tile.raster);
  const usual = inside.toSorted((a, b) => a - b)[Math.floor(0.95 * inside.length)] ?? 0;
  expect(first).toBeLessThanOrEqual(1.1 * usual);
  for (const height of [160, 187, 214, 241, 268]) {
    const cut = cropRaster(tile.raster, { x: 0, y: 0, width: 320, height });
    expect(rowSteps(cut)[0]).toBeGreaterThan(1.3 * usual);
  }
});

describe('grain with one chip in it', () => {
  const grain = noisePicture(160, 150, 4);
  const chip = { x: 73, y: 70, width: 14, height: 10 };
  for (const [channel, plane] of grain.planes.entries()) {
    for (let y = chip.y; y < chip.y + chip.height; y++) {
      plane.fill([0.98, 0.02, 0.02][channel]!, y * 160 + chip.x, y * 160 + chip.x + chip.width);
    }
  }
  // No grain is as red: its light ends at 0.7.
  const shareOf = ({ planes: [red] }: Raster): number =>
    red.reduce((sum, light) => sum + (light > 0.9 ? 1 : 0), 0) / red.length;

  test.each([1, 2, 3])('shows it seldomer than the photo by area, seed %d', (seed) => {
    const made = extendTile([{ raster: grain, lattice: null }], {
      width: 640,
      height: 600,
      repeats: { x: null, y: null },
      seed,
    });
    if (!made.ok) throw new Error(made.message);
    // By chance it would be 0.8 to 1: a tile 16 times as large with 16 chips of one shape.
    expect(shareOf(made.value.raster) / shareOf(grain)).toBeLessThan(0.6);
  });
});

test('a picture of one colour stays of one colour', () => {
  const flat = createRaster(40, 40);
  for (const plane of flat.planes) plane.fill(0.25);
  const made = extendTile([{ raster: flat, lattice: null }], {
    width: 100,
    height: 90,
    repeats: { x: null, y: null },
  });
  if (!made.ok) throw new Error(made.message);
  for (const plane of made.value.raster.planes) {
    for (const light of plane) expect(Math.abs(light - 0.25)).toBeLessThan(1e-5);
  }
});
