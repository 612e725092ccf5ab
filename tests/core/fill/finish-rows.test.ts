import { createRaster, cutRows, dpi, fillRows, printMm, px, type Raster } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import { layCopies } from '../../../packages/core/src/fill/lay-copies.js';
import type { MakeFinish } from '../../../packages/core/src/raster/row-finish.js';

// Every byte there is, and light between bytes.
function tileOf(width: number, height: number): Raster {
  const tile = createRaster(width, height);
  tile.planes.forEach((plane, channel) => {
    for (let i = 0; i < plane.length; i++) plane[i] = ((i * 7 + channel * 31) % 997) / 996;
  });
  return tile;
}

// 25.4 dpi: a dot is a mm.
const page = { width: printMm(97), height: printMm(61), dpi: dpi(25.4), datum: { x: -5, y: 13 } };
const outline = {
  loops: [Float64Array.of(0, 0, 70.3, 4, 55, 48.8, 3, 40), Float64Array.of(20, 12, 20, 25, 41, 22)],
  rule: 'evenodd',
} as const;

function bytesOf(rows: Iterable<Uint8Array>): number[][] {
  return Array.from(rows, (row) => [...row]);
}

// On all of a row alike.
function even(of: (colour: number) => number): MakeFinish {
  return ({ width }) => ({
    isEven: true,
    runs: () => [{ from: 0, to: width, even: true }],
    change: (colours) => {
      colours.set(colours.map(of));
    },
  });
}

const nothing = even((colour) => colour);

const tiles: readonly (readonly [string, Raster])[] = [
  ['a tile', tileOf(23, 17)],
  [
    'a tile of copies',
    layCopies(tileOf(12, 9), {
      x: { copies: 2, period: px(23) },
      y: { copies: 2, period: px(17) },
    }),
  ],
  ['a tile wider than the page', tileOf(120, 90)],
];

describe.each(tiles)('%s', (_, tile) => {
  test('finished by nothing is the tile, to the byte', () => {
    const plain = bytesOf(fillRows(tile, page).rows.rows());
    expect(bytesOf(fillRows(tile, { ...page, finishes: [nothing] }).rows.rows())).toEqual(plain);
    const cut = bytesOf(cutRows(tile, { ...page, outline }).rows.rows());
    const finished = cutRows(tile, { ...page, outline, finishes: [nothing, nothing] });
    expect(bytesOf(finished.rows.rows())).toEqual(cut);
    expect(bytesOf(finished.wall.rows())).toHaveLength(finished.rows.height);
  });

  test('colours are rounded once, whatever a finish leaves to the next', () => {
    // A sixteenth of 255 levels are 16, of which the next could not make all of them again.
    const finishes = [even((colour) => colour / 16), even((colour) => 16 * colour)];
    const plain = bytesOf(fillRows(tile, page).rows.rows());
    expect(bytesOf(fillRows(tile, { ...page, finishes }).rows.rows())).toEqual(plain);
    // One after the other, not the other way round.
    const half = even((colour) => colour / 2);
    const white = even(() => 1);
    const [first] = bytesOf(fillRows(tile, { ...page, finishes: [half, white] }).rows.rows());
    expect(new Set(first)).toEqual(new Set([255]));
  });

  test('what is even repeats as the tile does, and nothing else', () => {
    const { period, across, again } = fillRows(tile, page).rows;
    expect(fillRows(tile, { ...page, finishes: [nothing] }).rows).toMatchObject({
      ...(period !== undefined && { period }),
      ...(across !== undefined && { across }),
      ...(again !== undefined && { again }),
    });
    const once: MakeFinish = (made) => ({ ...nothing(made), isEven: false });
    const { rows } = fillRows(tile, { ...page, finishes: [once] });
    expect([rows.period, rows.across, rows.again]).toEqual([undefined, undefined, undefined]);
  });
});

test('what leaves 0 to 1 is clipped at the end', () => {
  const finishes = [even((colour) => 3 * colour - 1), even((colour) => (colour + 1) / 3)];
  const tile = tileOf(23, 17);
  const plain = bytesOf(fillRows(tile, page).rows.rows());
  expect(bytesOf(fillRows(tile, { ...page, finishes }).rows.rows())).toEqual(plain);
  const all = bytesOf(fillRows(tile, { ...page, finishes: finishes.slice(0, 1) }).rows.rows());
  expect(all.flat().every((byte) => byte >= 0 && byte <= 255)).toBe(true);
  expect(all.flat()).toContain(255);
});

test('finishes with runs of their own change every pixel once, by its place', () => {
  // Adds 1 to the level at every pixel by its column, in runs that end every so many columns.
  const stepped = (every: number, evenRuns: boolean): MakeFinish => {
    const seen: (readonly [number, number])[] = [];
    return ({ width }) => ({
      runs: () =>
        Array.from({ length: Math.ceil(width / every) }, (_, i) => ({
          from: i * every,
          to: Math.min(width, (i + 1) * every),
          even: evenRuns,
        })),
      change: (colours, y, from) => {
        seen.push([y, from]);
        const end = from + colours.length / 3;
        expect(Math.floor(from / every)).toBe(Math.floor((end - 1) / every));
        for (let i = 0; i < colours.length; i += 3) {
          // Its number of run is all that an even run goes by.
          const x = evenRuns ? Math.floor(from / every) : from + i / 3;
          colours[i] = colours[i]! + x / 255;
        }
      },
    });
  };
  const grey = createRaster(4, 3);
  const finishes = [stepped(10, true), stepped(7, false), stepped(9, true)];
  const { rows } = fillRows(grey, { ...page, finishes });
  for (const row of rows.rows()) {
    for (let x = 0; x < rows.width; x++) {
      expect(row[3 * x]).toBe(Math.floor(x / 10) + x + Math.floor(x / 9));
      expect(row[3 * x + 1]).toBe(0);
    }
  }
});

test('a finish is told where the part lies on its page', () => {
  const told: unknown[] = [];
  const finishes: MakeFinish[] = [(made) => (told.push(made), nothing(made))];
  fillRows(tileOf(5, 5), { ...page, bleed: printMm(2), finishes });
  // Half a dot to the right of the wall's dots.
  cutRows(tileOf(5, 5), { ...page, datum: { x: 3.5, y: 2 }, outline, finishes });
  expect(told).toEqual([
    { width: 101, height: 65, inset: { x: 2, y: 2 } },
    { width: 71, height: 49, inset: { x: 0.5, y: 0 } },
  ]);
});

test('a weathered wall is finished before it is rounded', () => {
  // Between two bytes, so that rounding it first would be seen sixteenfold.
  const light = 100.4 / 255;
  const wall = function* ({ width, height }: { width: number; height: number }) {
    for (let y = 0; y < height; y++) yield new Float32Array(3 * width).fill(light);
  };
  const finishes = [even((colour) => 16 * (colour - light) + 100 / 255)];
  const { rows } = fillRows(tileOf(5, 5), { ...page, wall, finishes });
  expect(rows.isVaried).toBe(true);
  for (const row of rows.rows()) expect(new Set(row)).toEqual(new Set([100]));
  const cut = cutRows(tileOf(5, 5), { ...page, outline, wall, finishes });
  for (const row of cut.rows.rows()) {
    for (let i = 0; i < row.length; i += 4) if (row[i + 3]! > 0) expect(row[i]).toBe(100);
  }
});
