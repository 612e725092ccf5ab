import { availableParallelism } from 'node:os';
import { isMainThread, Worker } from 'node:worker_threads';
import { gridOf, type PagePlaces } from '../../finish/weather/open-places.js';
import { paintRows, placesOf } from '../../finish/weather/paint-rows.js';
import type { ReadyWeather } from '../../finish/weather/ready-weather.js';
import { veilStep } from '../../finish/weather/veil.js';
import type { PageRows } from '../../finish/weather/weather-wall.js';
import { type PlaceBands, readBands } from './weather-bands.js';

// Dots of a page below which threads take longer to start than they save.
const leastDots = 3e6;
// More threads only wait: rows are painted and written by one.
const mostThreads = 3;
// Numbers of a band: large enough that what is reckoned anew for each costs next to nothing.
const bandNumbers = 3e5;
// Numbers that are reckoned before they are read, at most: 32 MB of them.
const mostAhead = 8e6;

/**
 * Make rows of a weathered wall: where a page is large what lies over it is reckoned by threads. Rows are the same,
 * whoever reckons them.
 *
 * @param ready - What is weathered, and how.
 * @param threads - How many besides this one; as the machine has processors unless told, and none within another
 *   thread, which is one of several.
 * @returns What makes them.
 */
export function weatherInThreads(ready: ReadyWeather, threads: number = spareThreads()): PageRows {
  return function* (page) {
    const bands = tryBands(placesOf(ready, page), threads);
    if (bands === null) {
      yield* paintRows(ready, page);
      return;
    }
    const { placesAt, close } = readBands(bands);
    try {
      yield* paintRows(ready, page, placesAt);
    } finally {
      close();
    }
  };
}

function spareThreads(): number {
  return isMainThread ? Math.min(mostThreads, availableParallelism() - 1) : 0;
}

function tryBands(page: PagePlaces, threads: number): PlaceBands | null {
  if (threads === 0 || page.width * page.height < leastDots) return null;
  try {
    return openBands(page, threads);
  } catch {
    // No memory that is shared, or no thread: it only takes longer.
    return null;
  }
}

/**
 * Cut the places of a page into bands, and have threads begin to reckon them.
 *
 * @param page - Which.
 * @param threads - How many.
 * @returns What {@link readBands} reads, and reckons itself where no thread does.
 * @throws What a thread says that cannot be started, where none can.
 */
export function openBands(page: PagePlaces, threads: number): PlaceBands {
  const bands = cutBands(page, threads);
  startThread(bands);
  try {
    for (let i = 1; i < threads; i++) startThread(bands);
  } catch {
    // Those that run are enough.
  }
  return bands;
}

function cutBands(page: PagePlaces, threads: number): PlaceBands {
  const { count, rows: all } = gridOf(page);
  const size = veilStep * count;
  const rows = Math.max(1, Math.floor(bandNumbers / size));
  const bands = Math.ceil(all / rows);
  const ahead = Math.max(threads + 1, Math.floor(mostAhead / (rows * size)));
  const rooms = Array.from({ length: Math.min(bands, ahead) }, () => newRoom(rows * size));
  const states = new Int32Array(new SharedArrayBuffer(4 * (bands + 1)));
  return { page, rows, states, rooms };
}

function newRoom(numbers: number): Float32Array {
  return new Float32Array(new SharedArrayBuffer(4 * numbers));
}

function startThread(bands: PlaceBands): void {
  const worker = new Worker(new URL('weather-worker.js', import.meta.url), { workerData: bands });
  // What no thread does is done here.
  worker.on('error', () => undefined);
  worker.unref();
}
