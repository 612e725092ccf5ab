import { availableParallelism } from 'node:os';
import { isMainThread, Worker } from 'node:worker_threads';
import { openPage, paintRows, type WeatherPage } from '../finish/weather/paint-rows.js';
import type { WallPicture } from '../finish/weather/paint-row.js';
import type { ReadyWeather } from '../finish/weather/ready-weather.js';
import type { WeatheredRows } from '../finish/weather/weather-wall.js';
import { bandDone, type PageBands, takeBand } from './weather-bands.js';

// Dots of a page below which threads take longer to start than they save.
const leastDots = 3e6;
// More threads only wait: rows are written by one.
const mostThreads = 3;
// Colours of a band: large enough that what is reckoned anew for each costs next to nothing.
const bandColours = 1.5e6;
// Dots of a picture above which to hold it twice, for threads to see, would take too much memory.
const mostShared = 4e6;
// Milliseconds after which a thread that has a band will not be heard of again.
const patience = 20_000;

/**
 * Make rows of a weathered wall in several threads where a page is large. What they hold is the same, whoever makes
 * them.
 *
 * @param ready - What is weathered, and how.
 * @param threads - How many besides this one; as the machine has processors unless told, and none within another
 *   thread, which is one of several.
 * @returns What makes them.
 */
export function weatherInThreads(
  ready: ReadyWeather,
  threads: number = spareThreads(),
): WeatheredRows {
  let shared: ReadyWeather | null = null;
  return (page) => {
    const isWorth =
      page.width * page.height >= leastDots &&
      ready.picture.width * ready.picture.height <= mostShared;
    if (threads === 0 || !isWorth) return paintRows(ready, page);
    shared ??= share(ready);
    return inBands(shared, page, threads);
  };
}

function spareThreads(): number {
  return isMainThread ? Math.min(mostThreads, availableParallelism() - 1) : 0;
}

function* inBands(
  ready: ReadyWeather,
  page: WeatherPage,
  threads: number,
): Generator<Float32Array> {
  const bands = cutBands(ready, page, threads);
  const { rows, states, rooms } = bands;
  const count = states.length - 1;
  const own = openPage(ready, page);
  const size = 3 * page.width;
  for (let i = 0; i < threads; i++) startThread(bands);
  try {
    for (let band = 0; band < count; band++) {
      Atomics.store(states, count, band);
      Atomics.notify(states, count);
      const height = Math.min(rows, page.height - band * rows);
      const room = rooms[band % rooms.length];
      const isHere = !takeBand(states, band) && heard(states, band) && room !== undefined;
      for (let y = 0; y < height; y++) {
        yield isHere ? room.subarray(size * y, size * (y + 1)) : own(band * rows + y);
      }
    }
  } finally {
    Atomics.store(states, count, count);
    Atomics.notify(states, count);
  }
}

// False where whoever took the band is gone.
function heard(states: Int32Array, band: number): boolean {
  const state = Atomics.load(states, band);
  if (state !== bandDone) Atomics.wait(states, band, state, patience);
  return Atomics.load(states, band) === bandDone;
}

function cutBands(ready: ReadyWeather, page: WeatherPage, threads: number): PageBands {
  const { width, height } = page;
  // Whole rows of places.
  const rows = Math.max(4, 4 * Math.floor(bandColours / (3 * width) / 4));
  const count = Math.ceil(height / rows);
  const states = new Int32Array(new SharedArrayBuffer(4 * (count + 1)));
  const rooms = Array.from({ length: threads + 2 }, () => newShared(3 * width * rows));
  return { ready, page, rows, states, rooms };
}

function startThread(bands: PageBands): void {
  const worker = new Worker(new URL('weather-worker.js', import.meta.url), { workerData: bands });
  // What no thread does is done here.
  worker.on('error', () => undefined);
  worker.unref();
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
