import { createRaster, cropRaster, mendTile, type Raster } from '@gaugerod/core';
import { drawTexture, drawWall } from '@gaugerod/fixtures';
import { describe, expect, test } from 'vitest';
import { judgeWrap } from '../../support/judge-wrap.js';
import { noisePicture } from '../../support/noise-picture.js';

const wall = drawWall({
  bond: 'flemish',
  coursePx: 18,
  width: 420,
  height: 330,
  falloff: 0.4,
  seed: 77,
});

// Root mean square of the steps from row to row, in square roots of light.
function rowStep({ width, height, planes }: Raster, y: number): number {
  const green = planes[1];
  const above = ((y + height - 1) % height) * width;
  let sum = 0;
  for (let x = 0; x < width; x++) {
    const step = Math.sqrt(green[y * width + x]!) - Math.sqrt(green[above + x]!);
    sum += step * step;
  }
  return Math.sqrt(sum / width);
}

function mean({ planes }: Raster, channel: 0 | 1 | 2): number {
  const plane = planes[channel];
  return plane.reduce((sum, value) => sum + value, 0) / plane.length;
}

describe.each(['blend', 'cut', 'gradient'] as const)('a wall mended by %s', (method) => {
  const made = mendTile(wall.raster, { repeat: wall.truth.repeat, method });
  if (!made.ok) throw new Error(made.message);
  const { raster: tile, keptPercent, repeats, start } = made.value;

  test('holds whole repeats of its bond, to half a pixel and what joints wander', () => {
    for (const [length, repeat] of [
      [tile.width, wall.truth.repeat.x],
      [tile.height, wall.truth.repeat.y],
    ] as const) {
      const held = Math.round(length / repeat);
      expect(Math.abs(length - held * repeat)).toBeLessThanOrEqual(1.5);
    }
    expect(repeats.y).toBe(Math.round(tile.height / wall.truth.repeat.y));
  });

  test('keeps three fifths of the photo or more', () => {
    expect(keptPercent).toBeGreaterThanOrEqual(60);
  });

  test('is as light as the photo, to 1 part in 1000', () => {
    for (const channel of [0, 1, 2] as const) {
      expect(Math.abs(mean(tile, channel) / mean(wall.raster, channel) - 1)).toBeLessThan(0.001);
    }
  });

  test('has steps at its wrap as the photo has at the same phase of its courses', () => {
    const usual = { raster: wall.raster, period: wall.truth.coursePx };
    expect(judgeWrap({ raster: tile, first: start.y }, usual)).toBeLessThanOrEqual(1);
  });
});

test.each([0.25, 0.5, 0.75])(
  'the same wall cut %f of a course too low, with nothing joined, has other steps there',
  (over) => {
    const usual = { raster: wall.raster, period: wall.truth.coursePx };
    const height = Math.round((11 + over) * wall.truth.coursePx);
    for (const y of [0, 21, 42, 63, 84]) {
      const raster = cropRaster(wall.raster, { x: 0, y, width: wall.raster.width, height });
      expect(judgeWrap({ raster, first: y }, usual)).toBeGreaterThan(1);
    }
  },
);

test('gravel without any repeat is joined, and meets itself', () => {
  const { raster } = drawTexture({ texture: 'gravel', width: 240, height: 200, seed: 9 });
  const made = mendTile(raster, { repeat: { x: null, y: null } });
  expect(made).toMatchObject({ ok: true, value: { repeats: { x: null, y: null } } });
  if (!made.ok) return;
  const { raster: tile, method } = made.value;
  expect(method).not.toBe('none');
  // Cut at random, the photo's last row meets its first with a larger step than neighbours have.
  const inside = Array.from({ length: tile.height - 1 }, (_, i) => rowStep(tile, i + 1));
  const usual = inside.toSorted((a, b) => a - b)[Math.floor(0.95 * inside.length)] ?? 0;
  expect(rowStep(raster, 0)).toBeGreaterThan(1.3 * usual);
  expect(rowStep(tile, 0)).toBeLessThanOrEqual(1.1 * usual);
});

test.each([60, 80, 90])(
  'gravel keeps %d per cent of its area or more where that is asked',
  (keep) => {
    for (const seed of [1, 2, 3]) {
      const made = mendTile(
        drawTexture({ texture: 'gravel', width: 240, height: 190, seed }).raster,
        { repeat: { x: null, y: null }, keep },
      );
      if (!made.ok) throw new Error(made.message);
      const { width, height } = made.value.raster;
      expect((100 * width * height) / (240 * 190)).toBeGreaterThanOrEqual(keep - 1);
      expect(made.value.method).not.toBe('none');
    }
  },
);

test('what is too narrow to tell is joined, not taken for seamless', () => {
  const made = mendTile(noisePicture(24, 24, 9), { repeat: { x: null, y: null } });
  if (!made.ok) throw new Error(made.message);
  expect(made.value.method).not.toBe('none');
  expect(made.warnings).toEqual([]);
});

test('less than one repeat is refused', () => {
  const made = mendTile(wall.raster, { repeat: { x: 2 * wall.raster.width, y: 36 } });
  expect(made).toMatchObject({ ok: false, code: 'too-few-repeats' });
});

test.each([0, -5, 101, NaN])('keeping %d per cent is no wish', (keep) => {
  expect(() => mendTile(wall.raster, { repeat: wall.truth.repeat, keep })).toThrow(RangeError);
});

test('a method asked for where nothing is to mend is not passed over in silence', () => {
  const flat = createRaster(64, 64);
  const mended = mendTile(flat, { repeat: { x: null, y: null }, method: 'cut' });
  if (!mended.ok) throw new Error(mended.message);
  expect(mended.value.method).toBe('none');
  expect(mended.warnings.map(({ code }) => code)).toEqual(['already-seamless']);
});

test('a picture known to meet itself side by side is not cut there, though its light was evened since', () => {
  const grain = noisePicture(160, 120, 9);
  // Twice as light at its right as at its left: to look at, it does not meet itself.
  for (const plane of grain.planes)
    plane.forEach((light, i) => (plane[i] = light * (1 + (i % 160) / 160)));
  const repeat = { x: null, y: null };
  const [told, untold] = [
    { x: true, y: false },
    { x: false, y: false },
  ].map((meets) => mendTile(grain, { repeat, meets }));
  if (!told?.ok || !untold?.ok) throw new Error('noise mends');
  expect(told.value.raster.width).toBe(160);
  expect(untold.value.raster.width).toBeLessThan(160);
  expect(told.value.raster.height).toBe(untold.value.raster.height);
});

test('a picture known not to meet itself is mended, even where its ends are alike by chance', () => {
  const flat = createRaster(96, 64);
  const meets = { x: false, y: true };
  const mended = mendTile(flat, { repeat: { x: null, y: null }, meets });
  if (!mended.ok) throw new Error(mended.message);
  expect(mended.value.joins.x).not.toBeNull();
  expect(mended.value.joins.y).toBeNull();
});

// Dark joints 4 px high, 20 px apart, that fall by so much over the width; a bed joint lies at 10.
function slopingBeds(width: number, height: number, fall: number): Raster {
  const grain = noisePicture(width, height, 12);
  for (const plane of grain.planes) {
    plane.forEach((light, at) => {
      const x = at % width;
      const y = Math.floor(at / width) + 0.5 - (fall * x) / width;
      const off = Math.abs(((((y - 10) % 20) + 30) % 20) - 10);
      const mortar = Math.min(1, Math.max(0, 2.5 - off));
      plane[at] = (0.4 + 0.05 * light) * (1 - mortar) + 0.02 * mortar;
    });
  }
  return grain;
}

// Where the darkest of the rows about a place lie, over some columns, by centre of gravity.
function bedAbout({ width, planes }: Raster, at: number, columns: readonly number[]): number {
  let [sum, moment] = [0, 0];
  for (let y = at - 6; y < at + 6; y++) {
    for (const x of columns) {
      const dark = Math.max(0, 0.4 - planes[1][y * width + x]!);
      sum += dark;
      moment += dark * (y + 0.5);
    }
  }
  return moment / sum;
}

test('joints that fall a little from left to right meet at the wrap, to a quarter of a pixel', () => {
  const raster = slopingBeds(400, 200, 4);
  const joints = { axis: 'y', course: 20, offset: 12, brick: null } as const;
  const made = mendTile(raster, { repeat: { x: 60, y: 20 }, joints, axis: 'x' });
  if (!made.ok) throw new Error(made.message);
  const { raster: tile } = made.value;
  // Nothing but the join could bring 3 px or more down to that: the tile is 300 px or longer.
  for (const at of [92, 112, 132]) {
    const before = Array.from({ length: 6 }, (_, i) => tile.width - 1 - i);
    const after = [0, 1, 2, 3, 4, 5];
    const step = bedAbout(tile, at, after) - bedAbout(tile, at, before);
    expect(Math.abs(step)).toBeLessThan(0.25);
  }
});
