import type { SeenBricks, WallPoint } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { meanGreen, plainWall, weathered, weatheredRows } from '../../../support/weathered.js';

test('soot darkens, salts lighten, moss is green', () => {
  const shown = { width: 300, height: 300, top: 600 };
  const bare = 0.16;
  const all = [
    [0, 300],
    [0, 300],
  ] as const;
  expect(meanGreen(weathered({ soot: 0.8, foot: null }, shown), ...all)).toBeLessThan(0.7 * bare);
  expect(meanGreen(weathered({ salts: 1, foot: null }, shown), ...all)).toBeGreaterThan(1.1 * bare);
  const { planes } = weathered({ moss: 1, facing: 'north', foot: null }, shown);
  const greener =
    planes[1].filter((green, i) => green > 0.7 * planes[0][i]!).length / planes[1].length;
  // Of the bare wall it is 0.16 / 0.35 = 0.46.
  expect(greener).toBeGreaterThan(0.15);
});

test('damp rises from the foot, unevenly, and not to the top', () => {
  // 3 m of wall; rising damp stops at about a metre (common practice, no source).
  const wall = weathered({ damp: 0.7, foot: 3000 }, { width: 500, height: 500 });
  const bare = meanGreen(wall, [0, 500], [0, 200]);
  expect(meanGreen(wall, [0, 500], [440, 490])).toBeLessThan(0.8 * bare);
  const heights = Array.from({ length: 50 }, (_, i) => {
    let row = 499;
    while (row > 0 && meanGreen(wall, [10 * i, 10 * i + 10], [row - 6, row]) < 0.93 * bare)
      row -= 2;
    return row;
  });
  expect(Math.max(...heights) - Math.min(...heights)).toBeGreaterThan(8);
});

test('streaks begin at a sill, thin out and end; beside it there are none', () => {
  const ledges = [{ from: { x: 600, y: 600 }, to: { x: 2400, y: 600 } }];
  const wall = weathered({ streaks: 1, ledges, foot: null }, { width: 500, height: 900 });
  const bare = 0.16;
  const marked = (from: number, to: number): number => {
    let dark = 0;
    for (let y = from; y < to; y++) {
      for (let x = 100; x < 400; x++) if (wall.planes[1][y * 500 + x]! < 0.8 * bare) dark++;
    }
    return dark / (300 * (to - from));
  };
  const shares = [110, 200, 300, 400, 520].map((row) => marked(row, row + 60));
  expect(shares[0]).toBeGreaterThan(0.2);
  for (let i = 1; i < shares.length; i++) expect(shares[i]!).toBeLessThan(shares[i - 1]!);
  expect(marked(840, 900)).toBeLessThan(0.02);
  expect(meanGreen(wall, [0, 95], [0, 900])).toBeCloseTo(meanGreen(wall, [0, 95], [0, 95]), 4);
  expect(meanGreen(wall, [0, 500], [0, 95])).toBeCloseTo(meanGreen(wall, [410, 500], [0, 900]), 4);
});

test('rust runs down from its fixing, and tapers', () => {
  const wall = weathered(
    { rust: 1, fixings: [{ x: 900, y: 600 }], foot: null },
    { width: 300, height: 420 },
  );
  const wide = (y: number): number => {
    let count = 0;
    for (let x = 0; x < 300; x++) if (wall.planes[2][y * 300 + x]! < 0.085) count++;
    return count;
  };
  expect(wide(60)).toBe(0);
  expect(wide(92)).toBe(0);
  expect(wide(106)).toBeGreaterThan(2);
  expect(wide(400)).toBe(0);
  // And where it runs it is redder than it is blue.
  expect(wall.planes[0][115 * 300 + 150]! / wall.planes[2][115 * 300 + 150]!).toBeGreaterThan(3.6);
});

test('moss keeps to ledges and the foot', () => {
  const ledges = [{ from: { x: 0, y: 1200 }, to: { x: 3000, y: 1200 } }];
  const wall = weathered({ moss: 0.8, ledges, foot: 3000 }, { width: 500, height: 500 });
  const { planes } = wall;
  const greenIn = (from: number, to: number): number => {
    let count = 0;
    for (let i = from * 500; i < to * 500; i++) if (planes[1][i]! > 0.7 * planes[0][i]!) count++;
    return count;
  };
  expect(greenIn(195, 235)).toBeGreaterThan(500);
  expect(greenIn(470, 500)).toBeGreaterThan(500);
  expect(greenIn(0, 180)).toBe(0);
  expect(greenIn(260, 400)).toBe(0);
});

// Two courses of stretcher bond on 64 x 48 dots: joints 3 dots wide.
function brickwork(): SeenBricks {
  const likeness = new Float32Array(64 * 48);
  const boxes = [0, 1].flatMap((course) =>
    [0, 1].map((i) => {
      const left = 32 * i + 16 * course;
      return { left, right: left + 32, top: 24 * course, bottom: 24 * course + 24 };
    }),
  );
  for (let y = 0; y < 48; y++) {
    for (let x = 0; x < 64; x++) {
      const off = Math.min(y % 24, 24 - (y % 24), (x + 16 * Math.floor(y / 24)) % 32);
      likeness[y * 64 + x] = off < 2 ? 1 : 0;
    }
  }
  return { likeness, boxes, joint: 3 };
}

test('grime lies in the joints, and no two repeats of a brick take soot alike', () => {
  const bricks = brickwork();
  const grimy = weathered({ grime: 1, foot: null }, { width: 64, height: 48, wall: { bricks } });
  expect(meanGreen(grimy, [4, 60], [0, 1])).toBeLessThan(0.7 * meanGreen(grimy, [6, 26], [8, 18]));
  const sooty = weathered(
    { soot: 0.8, foot: null },
    { width: 1280, height: 48, top: 96, wall: { bricks } },
  );
  const faces = Array.from({ length: 20 }, (_, i) =>
    meanGreen(sooty, [64 * i + 6, 64 * i + 26], [8, 18]),
  );
  const differing = new Set(faces.map((light) => Math.round(light * 1000)));
  expect(differing.size).toBeGreaterThan(10);
});

test('a sill of two stretches has no end where they meet', () => {
  const [left, bend, right] = [600, 1500, 2400].map((x) => ({ x, y: 600 })) as [
    WallPoint,
    WallPoint,
    WallPoint,
  ];
  const shown = { width: 500, height: 300 };
  const options = { streaks: 1, foot: null };
  const one = weatheredRows({ ...options, ledges: [{ from: left, to: right }] }, shown);
  const ledges = [
    { from: left, to: bend },
    { from: right, to: bend },
  ];
  expect(weatheredRows({ ...options, ledges }, shown)).toEqual(one);
});

test('grime lies in hollows where no joints are known', () => {
  const raster = plainWall(64, 48);
  for (const plane of raster.planes) for (let i = 0; i < 64; i++) plane[20 * 64 + i]! *= 0.5;
  const wall = weathered({ grime: 1, foot: null }, { width: 64, height: 48, wall: { raster } });
  // The hollow's light was half; grime makes it less than that of what is round it.
  expect(meanGreen(wall, [0, 64], [20, 21]) / meanGreen(wall, [0, 64], [30, 40])).toBeLessThan(0.4);
});
