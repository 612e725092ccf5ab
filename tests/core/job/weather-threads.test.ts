import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import { createRaster, type WeatherWall } from '@gaugerod/core';
import { expect, test } from 'vitest';
import {
  openPlaces,
  type PagePlaces,
} from '../../../packages/core/src/finish/weather/open-places.js';
import { openPage, placesOf } from '../../../packages/core/src/finish/weather/paint-rows.js';
import {
  type ReadyWeather,
  readyWeather,
} from '../../../packages/core/src/finish/weather/ready-weather.js';
import type { PageRows } from '../../../packages/core/src/finish/weather/weather-wall.js';
import {
  bandDone,
  bandOpen,
  bandTaken,
  makeBands,
  type PlaceBands,
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

// 130 x 260 dots at 4 dots a place from -34, -21 on: places -9 to 24 across and -6 to 60 down, whole places round all
// dots. 34 places are 544 numbers.
const [small, numbers] = [placesOf(ready(), { ...page, width: 130, height: 260 }), 544] as const;

// Four bands of 20 rows, of which the last has 7, with room for so many.
function bandsOf(rooms: number, size = 20 * numbers): PlaceBands {
  return {
    page: small,
    rows: 20,
    states: new Int32Array(new SharedArrayBuffer(4 * 5)),
    rooms: Array.from({ length: rooms }, () => new Float32Array(new SharedArrayBuffer(4 * size))),
  };
}

// The sum of each row of places, wherever it comes from.
function numbersOf(placesAt: (row: number) => Float32Array): number[] {
  return Array.from({ length: 67 }, (_, i) => placesAt(i - 6).reduce((a, b) => a + b, 0));
}

test('bands that a thread makes hold what lies over the page', () => {
  const bands = bandsOf(4);
  makeBands(bands);
  expect([...bands.states]).toEqual([bandDone, bandDone, bandDone, bandDone, 0]);
  const placesAt = openPlaces(small);
  for (let i = 0; i < 67; i++) {
    const room = bands.rooms[Math.floor(i / 20)] ?? new Float32Array(0);
    const start = numbers * (i % 20);
    expect(room.subarray(start, start + numbers)).toEqual(placesAt(i - 6));
  }
});

test('rows asked for backwards are those asked for in order', () => {
  const shown = { ...page, width: 130, height: 400 };
  const rowAt = openPage(ready(), shown);
  const rows = Array.from({ length: 400 }, (_, y) => rowAt(y).slice());
  const backwards = openPage(ready(), shown);
  for (let y = 399; y >= 0; y -= 7) expect(backwards(y)).toEqual(rows[y]);
});

test('a band whose maker fails is open again, and made by the reader', () => {
  // Too small for the second row of a band.
  const bands = bandsOf(4, numbers);
  expect(() => {
    makeBands(bands);
  }).toThrow(RangeError);
  expect([...bands.states]).toEqual([bandOpen, bandOpen, bandOpen, bandOpen, 0]);
  const { placesAt, close } = readBands(bands);
  expect(numbersOf(placesAt)).toEqual(numbersOf(openPlaces(small)));
  close();
});

test('where a band stays taken no room is given any more, and all that is not done is made by the reader', () => {
  const bands = bandsOf(4);
  const { states } = bands;
  makeBands(bands);
  expect([...states]).toEqual([bandDone, bandDone, bandDone, bandDone, 0]);
  // Say that the second is still being made, and nobody is heard of; and that nobody took the last.
  states[1] = bandTaken;
  states[3] = bandOpen;
  bands.rooms[1]?.fill(NaN);
  const { placesAt } = readBands(bands);
  const reading: number[] = [];
  const sums = numbersOf((row) => {
    const places = placesAt(row);
    if ((row + 6) % 20 === 0) reading.push(states[4] ?? NaN);
    return places;
  });
  // Told as being read: the first; and their number from the second on.
  expect(reading).toEqual([0, 4, 4, 4]);
  expect(sums).toEqual(numbersOf(openPlaces(small)));
});

test('bands that no thread takes are made by the reader', () => {
  const { placesAt } = readBands(bandsOf(4));
  expect(numbersOf(placesAt)).toEqual(numbersOf(openPlaces(small)));
});

test('where there is room for two bands a thread makes so many, and the others as they are read', async () => {
  const bands = bandsOf(2);
  const { states } = bands;
  const built = '../../../packages/core/dist/job/weather/weather-worker.js';
  const worker = new Worker(new URL(built, import.meta.url), { workerData: bands });
  const isOver = once(worker, 'exit');
  awaitDone(states, 1);
  // No third is begun.
  expect(Atomics.wait(states, 2, bandOpen, 50)).toBe('timed-out');
  expect(states[2]).toBe(bandOpen);
  const { placesAt, close } = readBands(bands);
  expect(numbersOf(placesAt)).toEqual(numbersOf(openPlaces(small)));
  close();
  await isOver;
});

// Nobody reads meanwhile: only a thread can have made it.
function awaitDone(states: Int32Array, band: number): void {
  for (let state = 0; (state = Atomics.load(states, band)) !== bandDone;) {
    if (Atomics.wait(states, band, state, 240_000) === 'timed-out') break;
  }
  expect(states[band]).toBe(bandDone);
}

interface Threads {
  readonly weatherInThreads: (wall: ReadyWeather, threads: number) => PageRows;
  readonly openBands: (places: PagePlaces, threads: number) => PlaceBands;
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

test('a bare page comes in bytes, those that its colours are rounded to', async () => {
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

test('a thread makes bands of a page before anybody reads', async () => {
  const { openBands } = await installed();
  const places = placesOf(ready(), page);
  const bands = openBands(places, 1);
  awaitDone(bands.states, 1);
  const { placesAt, close } = readBands(bands);
  const own = openPlaces(places);
  // 1500 dots from the 21st above the datum on.
  for (let row = -6; row <= 370; row++) expect(placesAt(row)).toEqual(own(row));
  close();
});

test('where no thread can be started the page is made all the same', async () => {
  const { weatherInThreads } = await installed();
  const wall = ready();
  // What a thread is given is copied, and functions cannot be (HTML, structured clone).
  const uncopied = { ...wall, given: { ...wall.given, odd: () => 0 } };
  const rows = sumsOf(weatherInThreads(uncopied, 2)(page));
  expect(rows).toEqual(sumsOf(weatherInThreads(wall, 0)(page)));
});
