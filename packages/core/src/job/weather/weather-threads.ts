import { availableParallelism } from 'node:os';
import { isMainThread, Worker } from 'node:worker_threads';
import { paintRows, type WeatherPage } from '../../finish/weather/paint-rows.js';
import type { WallPicture } from '../../finish/weather/paint-row.js';
import type { ReadyWeather } from '../../finish/weather/ready-weather.js';
import type { PageRows } from '../../finish/weather/weather-wall.js';
import { type PageBands, readBands, roomStride } from './weather-bands.js';

// Dots of a page below which threads take longer to start than they save.
const leastDots = 3e6;
// More threads only wait: rows are written by one.
const mostThreads = 3;
// Colours of a band: large enough that what is reckoned anew for each costs next to nothing.
const bandColours = 1.5e6;
// Dots of a picture above which to hold it twice, for threads to see, would take too much memory.
const mostShared = 4e6;

// Those that have begun and have no page yet.
const waiting: Worker[] = [];

/**
 * Call the threads that will make rows of a weathered wall, so that they begin while its photo is measured. Those that
 * nobody comes to end by themselves.
 *
 * @param dots - Of the page; none are called for one that is not worth it.
 */
export function callThreads(dots: number): void {
  const threads = dots < leastDots ? 0 : spareThreads();
  try {
    while (waiting.length < threads) waiting.push(newThread());
  } catch {
    // It only takes longer.
  }
}

/**
 * Make rows of a weathered wall in several threads where a page is large. What they hold is the same, whoever makes
 * them.
 *
 * @param ready - What is weathered, and how.
 * @param threads - How many besides this one; as the machine has processors unless told, and none within another
 *   thread, which is one of several.
 * @returns What makes them.
 */
export function weatherInThreads(ready: ReadyWeather, threads: number = spareThreads()): PageRows {
  let shared: ReadyWeather | null = null;
  const open = (page: WeatherPage): PageBands | null => {
    const isWorth =
      page.width * page.height >= leastDots &&
      ready.picture.width * ready.picture.height <= mostShared;
    if (threads === 0 || !isWorth) return null;
    try {
      shared ??= share(ready);
      return openBands(shared, page, threads);
    } catch {
      // No memory that is shared, or no thread: it only takes longer.
      return null;
    }
  };
  return function* (page) {
    const bands = open(page);
    yield* bands === null ? paintRows(ready, page) : readBands(bands);
  };
}

function spareThreads(): number {
  return isMainThread ? Math.min(mostThreads, availableParallelism() - 1) : 0;
}

/**
 * Cut a page into bands, and have threads begin to make them.
 *
 * @param ready - What is weathered, and how; in memory that is shared.
 * @param page - Which of its dots.
 * @param threads - How many.
 * @returns What {@link readBands} reads, and makes itself where no thread does.
 * @throws What a thread says that cannot be started, where none can.
 */
export function openBands(ready: ReadyWeather, page: WeatherPage, threads: number): PageBands {
  const bands = cutBands(ready, page, threads);
  startThread(bands);
  try {
    for (let i = 1; i < threads; i++) startThread(bands);
  } catch {
    // Those that run are enough.
  }
  return bands;
}

function cutBands(ready: ReadyWeather, page: WeatherPage, threads: number): PageBands {
  const { width, height } = page;
  // Whole rows of places.
  const rows = Math.max(4, 4 * Math.floor(bandColours / (3 * width) / 4));
  const count = Math.ceil(height / rows);
  const states = new Int32Array(new SharedArrayBuffer(4 * (count + 1)));
  const rooms = Array.from({ length: threads + 2 }, () =>
    page.bare === true
      ? new Uint8Array(new SharedArrayBuffer(roomStride(page) * rows))
      : newShared(3 * width * rows),
  );
  return { ready, page, rows, states, rooms };
}

function startThread(bands: PageBands): void {
  (waiting.pop() ?? newThread()).postMessage(bands);
}

function newThread(): Worker {
  const worker = new Worker(new URL('weather-worker.js', import.meta.url));
  // What no thread does is done here.
  worker.on('error', () => undefined);
  worker.on('exit', () => {
    const at = waiting.indexOf(worker);
    if (at >= 0) waiting.splice(at, 1);
  });
  worker.unref();
  return worker;
}

function newShared(length: number): Float32Array {
  return new Float32Array(new SharedArrayBuffer(4 * length));
}

// The arrays of a wall are as large as its picture: threads look at the same ones.
function share({ picture, given, grain }: ReadyWeather): ReadyWeather {
  const pixels = sharePixels(picture.pixels);
  const table = grain.table && toShared(grain.table);
  return { picture: { ...picture, pixels }, given, grain: { ...grain, table } };
}

function sharePixels(pixels: WallPicture['pixels']): WallPicture['pixels'] {
  if ('dots' in pixels) {
    return { dots: toShared(pixels.dots), labels: shareLabels(pixels.labels) };
  }
  const { joints, labels } = pixels;
  const [red, green, blue] = pixels.planes;
  const planes = [toShared(red), toShared(green), toShared(blue)] as const;
  return { planes, joints: toShared(joints), labels: labels && shareLabels(labels) };
}

function shareLabels(labels: Uint16Array | Int32Array): Int32Array {
  const shared = new Int32Array(new SharedArrayBuffer(4 * labels.length));
  shared.set(labels);
  return shared;
}

function toShared(array: Float32Array): Float32Array {
  const shared = newShared(array.length);
  shared.set(array);
  return shared;
}
