import { createHash } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Worker } from 'node:worker_threads';
import {
  createRaster,
  dpi,
  fillPhoto,
  findCourse,
  findScale,
  printMm,
  type WeatherWall,
} from '@gaugerod/core';
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
  notRead,
  type PlaceBands,
  readBands,
} from '../../../packages/core/src/job/weather/weather-bands.js';
import { roundColours } from '../../../packages/core/src/raster/round-colours.js';
import { tempFolder } from '../../support/temp-folder.js';

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
  const states = new Int32Array(new SharedArrayBuffer(4 * 6));
  states[4] = notRead;
  return {
    page: small,
    rows: 20,
    states,
    rooms: Array.from({ length: rooms }, () => new Float32Array(size)),
  };
}

// The sum of each row of places, wherever it comes from.
function numbersOf(placesAt: (row: number) => Float32Array): number[] {
  return Array.from({ length: 67 }, (_, i) => placesAt(i - 6).reduce((a, b) => a + b, 0));
}

test('bands that a thread makes before anybody reads hold what lies over the page, as far as there is room', () => {
  const bands = bandsOf(3);
  // Nobody comes: it ends.
  makeBands(bands, 20);
  expect([...bands.states]).toEqual([bandDone, bandDone, bandDone, bandOpen, notRead, 0]);
  const placesAt = openPlaces(small);
  for (let i = 0; i < 60; i++) {
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
  expect([...bands.states]).toEqual([bandOpen, bandOpen, bandOpen, bandOpen, notRead, 0]);
  const { placesAt, close } = readBands(bands);
  expect(numbersOf(placesAt)).toEqual(numbersOf(openPlaces(small)));
  close();
});

test('where a band stays taken no room is given any more, and all that is not done is made by the reader', () => {
  const bands = bandsOf(4);
  const { states } = bands;
  makeBands(bands);
  expect([...states]).toEqual([bandDone, bandDone, bandDone, bandDone, notRead, 0]);
  // Say that the second is still being made, and nobody is heard of; and that nobody took the last.
  states[1] = bandTaken;
  states[3] = bandOpen;
  states[5] = 1;
  bands.rooms[1]?.fill(NaN);
  const { placesAt } = readBands(bands, 30);
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

test('a band that no thread comes by for is made by the reader, though there are threads', () => {
  const bands = bandsOf(4);
  bands.states[5] = 1;
  const { placesAt } = readBands(bands);
  expect(numbersOf(placesAt)).toEqual(numbersOf(openPlaces(small)));
});

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
  const { states } = bands;
  // Nothing is read before the second band is made: only a thread can have made it.
  while (states[1] !== bandDone) {
    const heard = Atomics.wait(states, 1, states[1] ?? 0, 240_000);
    if (heard === 'timed-out') break;
  }
  expect(states[1]).toBe(bandDone);
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

test.skipIf(availableParallelism() < 2)(
  'threads that were called for a photo that is refused end with it',
  async () => {
    const path = join(tempFolder(), 'wall.png');
    writeFileSync(path, 'words');
    let [called, ended] = [0, 0];
    const count = (worker: Worker): void => {
      called++;
      worker.on('exit', () => ended++);
    };
    process.on('worker', count);
    // A4 with its margins: 32 million dots, of whose places there is room for a part, so that threads wait.
    const size = { width: printMm(200), height: printMm(280) };
    const wish = { course: findCourse('uk-metric'), scale: findScale('N-UK'), dpi: dpi(600), size };
    const output = join(tempFolder(), 'front.png');
    await expect(
      fillPhoto(path, { ...wish, output, weather: { preset: 'settled' } }),
    ).rejects.toThrow('holds text');
    process.off('worker', count);
    expect(called).toBeGreaterThan(0);
    // Those that nobody told would wait for a minute.
    for (let tries = 0; ended < called && tries < 400; tries++) await wait(100);
    expect(ended).toBe(called);
  },
);
