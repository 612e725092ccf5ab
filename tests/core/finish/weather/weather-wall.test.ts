import {
  inspectSeams,
  resampleRaster,
  type WeatherPage,
  type WeatherWall,
  weatherWall,
} from '@gaugerod/core';
import { expect, test } from 'vitest';
import { plainWall, type Shown, weathered, weatheredRows } from '../../../support/weathered.js';

const derelict = { preset: 'derelict', foot: 3000 } as const;

test('where every strength is 0 there is no weather', () => {
  const wall = {
    raster: plainWall(8, 8),
    bricks: null,
    mmPerDot: { x: 5, y: 5 },
    origin: { x: 0, y: 0 },
    meets: { x: true, y: true },
  };
  expect(weatherWall(wall, { foot: 0 })).toBeNull();
  expect(weatherWall(wall, { soot: 0, moss: 0, foot: 0 })).toBeNull();
  const none = Object.fromEntries(
    ['soot', 'streaks', 'damp', 'rust', 'moss', 'salts', 'fade', 'grime', 'patches'].map((name) => [
      name,
      0,
    ]),
  );
  expect(weatherWall(wall, { preset: 'derelict', ...none, foot: 0 })).toBeNull();
});

test.each([-0.1, 1.01, NaN])('a strength of %d is refused', (soot) => {
  expect(() => weathered({ soot, foot: null }, { width: 8, height: 8 })).toThrow(
    /^expected 0 to 1 for soot, got/,
  );
});

test('the next part carries on to the pixel, wherever the cut is', () => {
  const whole = weatheredRows(derelict, { left: -7, top: 3, width: 203, height: 96 });
  for (const cut of [1, 50, 99, 102]) {
    const left = weatheredRows(derelict, { left: -7, top: 3, width: cut, height: 96 });
    const right = weatheredRows(derelict, { left: cut - 7, top: 3, width: 203 - cut, height: 96 });
    whole.forEach((row, y) => {
      for (let channel = 0; channel < 3; channel++) {
        const joined = [left[y]!, right[y]!].flatMap((part) => {
          const size = part.length / 3;
          return part.slice(channel * size, (channel + 1) * size);
        });
        expect(joined).toEqual(row.slice(channel * 203, (channel + 1) * 203));
      }
    });
  }
  const upper = weatheredRows(derelict, { left: -7, top: 3, width: 203, height: 41 });
  const lower = weatheredRows(derelict, { left: -7, top: 44, width: 203, height: 55 });
  expect([...upper, ...lower]).toEqual(whole);
});

test('what is laid once is painted as what is laid again and again, row by row', () => {
  // Every level, in every order: nothing is told by its colour.
  const raster = plainWall(64, 40);
  for (const plane of raster.planes) plane.forEach((_, i) => (plane[i] = ((i * 37) % 251) / 250));
  const once = {
    raster,
    bricks: null,
    mmPerDot: { x: 5, y: 5 },
    origin: { x: 0, y: 0 },
    meets: { x: false, y: false },
  };
  const seen = (): Pick<WeatherWall, 'bricks'> => ({
    bricks: {
      likeness: Float32Array.from({ length: 64 * 40 }, (_, i) => ((i * 13) % 100) / 80),
      boxes: [{ left: 2, top: 2, right: 40, bottom: 16 }],
      joint: 2,
    },
  });
  const copies = { x: { starts: [0], period: 64 }, y: { starts: [0], period: 40 } };
  const page = { width: 64, height: 40, left: 0, top: 0 };
  for (const bricks of [() => ({ bricks: null }), seen]) {
    const rowsOf = (wall: WeatherWall): number[][] =>
      Array.from(weatherWall(wall, derelict)?.(page) ?? [], (row) => [...row]);
    const rows = rowsOf({ ...once, ...bricks() });
    expect(rows).toHaveLength(40);
    expect(rows).toEqual(rowsOf({ ...once, ...bricks(), copies }));
  }
});

test('a ledge that is told twice, either way round and all but to the dot, is one', () => {
  const shown = { left: 0, top: 0, width: 160, height: 60 };
  const sill = { from: { x: 150, y: 30.004 }, to: { x: 600.004, y: 30.004 } };
  const twin = { from: { x: 600.006, y: 30.006 }, to: { x: 149.996, y: 30.006 } };
  const wish = { streaks: 1, moss: 1, foot: null } as const;
  const once = weatheredRows({ ...wish, ledges: [sill] }, shown);
  expect(weatheredRows({ ...wish, ledges: [sill, twin, sill] }, shown)).toEqual(once);
  const other = { from: sill.from, to: { x: 600.1, y: 30.004 } };
  expect(weatheredRows({ ...wish, ledges: [sill, other] }, shown)).not.toEqual(once);
});

test('another seed is another past, the same the same', () => {
  const shown = { width: 90, height: 60 };
  const first = weatheredRows({ ...derelict, seed: 5 }, shown);
  expect(weatheredRows({ ...derelict, seed: 5 }, shown)).toEqual(first);
  expect(weatheredRows({ ...derelict, seed: 6 }, shown)).not.toEqual(first);
});

// How alike two pictures are, of what is left of them once their mean is gone.
function correlation(a: Float32Array, b: Float32Array): number {
  const meanOf = (plane: Float32Array): number =>
    plane.reduce((sum, value) => sum + value, 0) / plane.length;
  const [ma, mb] = [meanOf(a), meanOf(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    const [p, q] = [a[i]! - ma, b[i]! - mb];
    ab += p * q;
    aa += p * p;
    bb += q * q;
  }
  return ab / Math.sqrt(aa * bb);
}

test.each([
  ['settled', 600],
  ['grimy', 600],
  ['derelict', 600],
  ['settled', 300],
  ['grimy', 300],
  ['derelict', 300],
] as const)('two scales of one wall show one weather: %s, %d dpi', (preset, dpi) => {
  // 1:148 and 1:76.2: 25.4 / 600 mm of paper a dot at 600 dpi. 6 x 3.6 m of wall.
  const [n, oo] = [148, 76.2].map((scale) => (scale * 25.4) / dpi) as [number, number];
  const size = (mm: number): Shown => ({
    mm,
    width: Math.round(6000 / mm),
    height: Math.round(3600 / mm),
  });
  const options = {
    preset,
    foot: 3600,
    ledges: [{ from: { x: 900, y: 800 }, to: { x: 2100, y: 800 } }],
  };
  const small = weathered(options, size(n));
  const large = resampleRaster(weathered(options, size(oo)), {
    width: small.width,
    height: small.height,
  });
  for (const channel of [0, 1, 2] as const) {
    expect(correlation(small.planes[channel], large.planes[channel])).toBeGreaterThan(0.95);
  }
});

test('a tile stays a tile', () => {
  for (const seed of [1, 2, 3]) {
    const raster = plainWall(240, 180);
    const options = {
      soot: 0.7,
      grime: 0.5,
      salts: 0.6,
      rust: 0.6,
      patches: 0.6,
      seed,
      foot: null,
    };
    const repeats = { x: true, y: true };
    const shown = { width: 240, height: 180, mm: 6, wall: { raster } };
    const { x, y } = inspectSeams(weathered({ ...options, repeats }, shown));
    expect([x.seamless, y.seamless]).toEqual([true, true]);
    const from = (left: number): number[][] =>
      weatheredRows({ ...options, repeats }, { ...shown, left, width: 60 });
    const again = from(240);
    const most = from(0).flatMap((row, i) =>
      row.map((value, k) => Math.abs(value - again[i]![k]!)),
    );
    // Layers are reckoned at places four dots apart, which need not come round with the tile.
    expect(Math.max(...most)).toBeLessThan(0.03);
  }
});

test.each(['soot', 'grime', 'salts', 'rust', 'fade', 'patches'] as const)(
  'a tile of %s comes round both ways',
  (name) => {
    const raster = plainWall(240, 180);
    const shown = { width: 240, height: 180, mm: 6, wall: { raster } };
    const changes = [1, 2, 3].map((seed) => {
      const options = { [name]: 1, seed, foot: null, repeats: { x: true, y: true } };
      const page = (times: number): number[] =>
        weatheredRows(options, { ...shown, left: 240 * times, top: 180 * times }).flat();
      const here = page(0);
      const there = page(1);
      const most = here.map((value, k) => Math.abs(value - there[k]!));
      expect(most.every((apart) => apart < 1e-3)).toBe(true);
      return new Set(here).size;
    });
    // One of the seeds at least lays some.
    expect(Math.max(...changes)).toBeGreaterThan(10);
  },
);

test('wet and green end well below 1.4 m where damp is slight, however long the wall', () => {
  const shown = { width: 8000, height: 100, mm: 6.27, wall: { raster: plainWall(8, 8) } };
  for (const seed of [1, 2, 3]) {
    const wall = weatheredRows({ damp: 0.2, seed, foot: 2000 }, shown);
    // As it is where the ground lies far below.
    const dry = weatheredRows({ damp: 0.2, seed, foot: 1e5 }, shown);
    expect(wall).toEqual(dry);
  }
});

test('of several walls each has a past of its own, on the same picture', () => {
  const wall: WeatherWall = {
    raster: plainWall(16, 12),
    bricks: null,
    mmPerDot: { x: 6, y: 6 },
    origin: { x: 3, y: 2 },
    meets: { x: true, y: true },
  };
  const rows = weatherWall(wall, { preset: 'grimy', foot: 500 });
  const page = { width: 50, height: 20, left: -4, top: 9 };
  const shown = (more: Partial<WeatherPage>): number[][] =>
    Array.from(rows?.({ ...page, ...more }) ?? [], (row) => [...row]);
  const first = shown({});
  expect(first).toHaveLength(20);
  expect(shown({ past: 0 })).toEqual(first);
  expect(shown({ past: 1 })).not.toEqual(first);
  // The picture alone moves: it is of one colour, and what lies on the wall stays where it is.
  expect(shown({ left: 1, top: 9 + 7, origin: { x: 8, y: 9 } })).toEqual(first);
});
