import { createHash } from 'node:crypto';
import { createRaster, type WeatherWall } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { openPage } from '../../../packages/core/src/finish/weather/paint-rows.js';
import {
  type ReadyWeather,
  readyWeather,
} from '../../../packages/core/src/finish/weather/ready-weather.js';
import type { WeatheredRows } from '../../../packages/core/src/finish/weather/weather-wall.js';
import { bandDone, bandOpen, makeBands } from '../../../packages/core/src/job/weather-bands.js';

// 2100 x 1500 dots: enough for threads.
const page = { width: 2100, height: 1500, left: -31, top: -17 };

function ready(): ReadyWeather {
  const raster = createRaster(60, 45);
  for (const plane of raster.planes) plane.fill(0.3);
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

test('a page is the same to the bit, however many threads make it', async () => {
  // As it is installed, for a thread begins with a file.
  const built = new URL('../../../packages/core/dist/job/weather-threads.js', import.meta.url).href;
  const { weatherInThreads } = (await import(/* @vite-ignore */ built)) as {
    weatherInThreads: (wall: ReadyWeather, threads: number) => WeatheredRows;
  };
  const wall = ready();
  const sums = [0, 1, 3].map((threads) => {
    const rows = weatherInThreads(wall, threads);
    return Array.from(rows(page), (row) => createHash('sha256').update(row).digest('hex'));
  });
  expect(sums[0]).toHaveLength(1500);
  expect(sums[1]).toEqual(sums[0]);
  expect(sums[2]).toEqual(sums[0]);
});
