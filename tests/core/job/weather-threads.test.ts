import { createHash } from 'node:crypto';
import { createRaster, type WeatherWall } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { openPage } from '../../../packages/core/src/finish/weather/paint-rows.js';
import {
  type ReadyWeather,
  readyWeather,
} from '../../../packages/core/src/finish/weather/ready-weather.js';
import type { PageRows } from '../../../packages/core/src/finish/weather/weather-wall.js';
import {
  bandDone,
  bandOpen,
  makeBands,
  type PageBands,
  readBands,
} from '../../../packages/core/src/job/weather/weather-bands.js';
import { roundColours } from '../../../packages/core/src/raster/round-colours.js';

// 2100 x 1500 dots: enough for threads.
const page = { width: 2100, height: 1500, left: -31, top: -17 };

function ready(): ReadyWeather {
  const raster = createRaster(60, 45);
  // No row like another.
  for (const [c, plane] of raster.planes.entries()) {
    for (const i of plane.keys()) plane[i] = 0.2 + ((i * (7 + c)) % 101) / 400;
  }
  const wall: WeatherWall = {
    raster,
    bricks: null,
    mmPerDot: { x: 6, y: 6 },
    origin: { x: 3, y: 4 },
    meets: { x: true, y: true },
  };
  const made = readyWeather(wall, { preset: 'derelict', foot: 8000 });
  if (made === null) throw new Error('expected weather');
  return made;
}

test('bands that a thread makes hold the rows of the page, and lie in their rooms', () => {
  const wall = ready();
  const shown = { ...page, width: 130, height: 70 };
  // The first is being read, so that others are made; the last is short.
  const states = Int32Array.of(bandOpen, bandOpen, bandOpen, 0);
  const rooms = [0, 1, 2].map(() => new Float32Array(3 * 130 * 32));
  makeBands({ ready: wall, page: shown, rows: 32, states, rooms });
  expect([...states]).toEqual([bandOpen, bandDone, bandDone, 0]);
  const rowAt = openPage(wall, shown);
  for (let y = 32; y < 70; y++) {
    const room = rooms[y >> 5] ?? new Float32Array(0);
    expect(room.subarray(390 * (y % 32), 390 * (y % 32) + 390)).toEqual(rowAt(y));
  }
});

test('rows asked for backwards are those asked for in order', () => {
  const shown = { ...page, width: 130, height: 400 };
  const rowAt = openPage(ready(), shown);
  const rows = Array.from({ length: 400 }, (_, y) => rowAt(y).slice());
  const backwards = openPage(ready(), shown);
  for (let y = 399; y >= 0; y -= 7) expect(backwards(y)).toEqual(rows[y]);
});

test('a band whose maker fails is open again', () => {
  const shown = { ...page, width: 130, height: 70 };
  const states = Int32Array.of(bandOpen, bandOpen, bandOpen, 0);
  // Too small for the second row of a band.
  const rooms = [0, 1, 2].map(() => new Float32Array(3 * 130));
  expect(() => {
    makeBands({ ready: ready(), page: shown, rows: 32, states, rooms });
  }).toThrow(RangeError);
  expect([...states]).toEqual([bandOpen, bandOpen, bandOpen, 0]);
});

test('where a band stays taken no room is given any more, and all that is not done is made by the reader', () => {
  const wall = ready();
  const shown = { ...page, width: 130, height: 120 };
  const states = new Int32Array(new SharedArrayBuffer(4 * 5));
  const rooms = [0, 1, 2, 3].map(() => new Float32Array(3 * 130 * 32));
  const bands: PageBands = { ready: wall, page: shown, rows: 32, states, rooms };
  makeBands(bands);
  expect([...states]).toEqual([bandOpen, bandDone, bandDone, bandDone, 0]);
  // Say that the second is still being made, and nobody is heard of; and that nobody took the last.
  states[1] = 1;
  states[3] = bandOpen;
  rooms[1]?.fill(NaN);
  const read: number[] = [];
  const rows = Array.from(readBands(bands, 30), (row, y) => {
    if (y % 32 === 0) read.push(states[4] ?? NaN);
    return row.slice();
  });
  // Told as being read: the first; and their number from the second on.
  expect(read).toEqual([0, 4, 4, 4]);
  const rowAt = openPage(wall, shown);
  expect(rows).toHaveLength(120);
  for (const [y, row] of rows.entries()) expect(row).toEqual(rowAt(y));
});

interface Threads {
  readonly weatherInThreads: (wall: ReadyWeather, threads: number) => PageRows;
  readonly openBands: (wall: ReadyWeather, shown: typeof page, threads: number) => PageBands;
}

// As it is installed, for a thread begins with a file.
async function installed(): Promise<Threads> {
  const built = new URL(
    '../../../packages/core/dist/job/weather/weather-threads.js',
    import.meta.url,
  ).href;
  return (await import(/* @vite-ignore */ built)) as Threads;
}

function sumsOf(rows: ReturnType<PageRows>): string[] {
  return Array.from(rows, (row) => createHash('sha256').update(row).digest('hex'));
}

test('a page is the same to the bit, however many threads make it', async () => {
  const { weatherInThreads } = await installed();
  const wall = ready();
  const sums = [0, 1, 3].map((threads) => sumsOf(weatherInThreads(wall, threads)(page)));
  expect(sums[0]).toHaveLength(1500);
  expect(sums[1]).toEqual(sums[0]);
  expect(sums[2]).toEqual(sums[0]);
});

test('of a bare page threads make bytes, those that its colours are rounded to', async () => {
  const { weatherInThreads } = await installed();
  const wall = ready();
  const rowAt = openPage(wall, page);
  const rounded = new Uint8Array(3 * page.width);
  let y = 0;
  for (const row of weatherInThreads(wall, 1)({ ...page, bare: true })) {
    roundColours(rowAt(y++) as Float32Array, rounded);
    expect(Buffer.compare(row as Uint8Array, rounded)).toBe(0);
  }
  expect(y).toBe(1500);
});

test('where moss lies over dark joints colours are none but colours, and bytes what they are rounded to', () => {
  const raster = createRaster(120, 100);
  const likeness = new Float32Array(120 * 100);
  for (let i = 0; i < likeness.length; i++) {
    const isJoint = i % 120 < 12 || Math.floor(i / 120) % 50 < 12;
    likeness[i] = isJoint ? 1 : 0;
    for (const plane of raster.planes) plane[i] = isJoint ? 0 : 0.12;
  }
  const boxes = [0, 50].map((top) => ({ left: 6, top: top + 6, right: 126, bottom: top + 56 }));
  const ledges = [
    { from: { x: 0, y: 0 }, to: { x: 2000, y: 0 } },
    { from: { x: 30, y: 101 }, to: { x: 500, y: 101 } },
    { from: { x: 50, y: 250 }, to: { x: 600, y: 250 } },
  ];
  const wall = readyWeather(
    {
      raster,
      bricks: { likeness, boxes, joint: 12 },
      mmPerDot: { x: 0.7, y: 0.7 },
      origin: { x: 0, y: 0 },
      meets: { x: true, y: true },
    },
    { preset: 'derelict', moss: 1, foot: null, facing: 'north', seed: 3, ledges },
  );
  if (wall === null) throw new Error('expected weather');
  const shown = { width: 901, height: 600, left: -7, top: -3 };
  const colours = openPage(wall, shown);
  const bytes = openPage(wall, { ...shown, bare: true });
  const rounded = new Uint8Array(3 * shown.width);
  let [least, most] = [0, 1];
  for (let y = 0; y < shown.height; y++) {
    const row = colours(y) as Float32Array;
    for (const colour of row) {
      least = Math.min(least, colour);
      most = Math.max(most, colour);
    }
    roundColours(row, rounded);
    expect(Buffer.compare(bytes(y) as Uint8Array, rounded)).toBe(0);
  }
  // But for what single precision rounds.
  expect(least).toBeGreaterThan(-1e-6);
  expect(most).toBeLessThan(1 + 1e-6);
});

test('threads make bands of a page', async () => {
  const { openBands, weatherInThreads } = await installed();
  const wall = ready();
  const bands = openBands(wall, page, 1);
  const { states } = bands;
  // Nothing is read before the second band is made: only a thread can have made it.
  while (states[1] !== bandDone) {
    const heard = Atomics.wait(states, 1, states[1] ?? 0, 240_000);
    if (heard === 'timed-out') break;
  }
  expect(states[1]).toBe(bandDone);
  const rows = sumsOf(readBands(bands));
  expect(rows).toEqual(sumsOf(weatherInThreads(wall, 0)(page)));
});

test('where no thread can be started the page is made all the same', async () => {
  const { weatherInThreads } = await installed();
  const wall = ready();
  // What a thread is given is copied, and functions cannot be (HTML, structured clone).
  const uncopied = { ...wall, given: { ...wall.given, odd: () => 0 } };
  const rows = sumsOf(weatherInThreads(uncopied, 2)(page));
  expect(rows).toEqual(sumsOf(weatherInThreads(wall, 0)(page)));
});
