import type { Colours } from '../../finish/weather/paint-row.js';
import { openPage, type PageRow, type WeatherPage } from '../../finish/weather/paint-rows.js';
import type { ReadyWeather } from '../../finish/weather/ready-weather.js';

/**
 * A page that several threads make, band by band: each band by whoever takes it first. All arrays lie in memory that
 * they share.
 */
export interface PageBands {
  /** What is weathered, and how. */
  readonly ready: ReadyWeather;
  /** Which of its dots. */
  readonly page: WeatherPage;
  /** Rows of a band; the last may have fewer. */
  readonly rows: number;
  /** How far each band is, {@link bandOpen} and on; and last, which of them is being read, or their number at the end. */
  readonly states: Int32Array;
  /** Room for the bands from that one on, which are used in turn. */
  readonly rooms: readonly Colours[];
}

/** Nobody has taken the band. */
export const bandOpen = 0;
/** Somebody makes it. */
const bandTaken = 1;
/** It lies in its room. */
export const bandDone = 2;

// Milliseconds after which a band that is waited for is looked at again.
const slice = 250;

/**
 * Say how far apart rows of a room begin: of bytes at whole words, for memory that is shared is copied byte by byte
 * where it does not lie so.
 *
 * @param page - That is made.
 * @returns In samples.
 */
export function roomStride(page: WeatherPage): number {
  const { width, bare = false } = page;
  return bare ? 8 * Math.ceil((3 * width) / 8) : 3 * width;
}

// Take a band, if nobody has: whether it is the caller's to make.
function takeBand(states: Int32Array, band: number): boolean {
  return Atomics.compareExchange(states, band, bandOpen, bandTaken) === bandOpen;
}

/**
 * Make whatever bands of a page nobody else makes, as soon as there is room, until the last is being read.
 *
 * @param bands - The page.
 */
export function makeBands(bands: PageBands): void {
  const { ready, page, states, rooms } = bands;
  const rowAt = openPage(ready, page);
  const count = states.length - 1;
  for (let band = 0; band < count; band++) {
    let read = Atomics.load(states, count);
    while (band >= read + rooms.length) {
      Atomics.wait(states, count, read);
      read = Atomics.load(states, count);
    }
    if (band > read) makeBand(bands, band, rowAt);
  }
}

// Make a band in its room, unless somebody has taken it.
function makeBand({ page, rows, states, rooms }: PageBands, band: number, rowAt: PageRow): void {
  const room = rooms[band % rooms.length];
  if (room === undefined || !takeBand(states, band)) return;
  const stride = roomStride(page);
  try {
    const from = band * rows;
    const to = Math.min(page.height, from + rows);
    for (let y = from; y < to; y++) room.set(rowAt(y), stride * (y - from));
  } catch (error) {
    // Whoever waits for the band makes it.
    settle(states, band, bandOpen);
    throw error;
  }
  settle(states, band, bandDone);
}

/**
 * Read all rows of a page in turn: those of bands that lie in their rooms, and what nobody else makes is made here.
 *
 * @param bands - The page.
 * @param patience - Milliseconds after which who has a band will not be heard of again.
 * @yields Each row, which holds until the next is asked for.
 */
export function* readBands(bands: PageBands, patience = 20_000): Generator<Colours> {
  const { ready, page, rows, states, rooms } = bands;
  const count = states.length - 1;
  const own = openPage(ready, page);
  const size = 3 * page.width;
  const stride = roomStride(page);
  let isClosed = false;
  try {
    for (let band = 0; band < count; band++) {
      if (!isClosed) settle(states, count, band);
      const made = isClosed
        ? Atomics.load(states, band)
        : awaitBand(bands, { band, rowAt: own, patience });
      // Whoever is late may still write into its room: no room is given to another band from here on.
      if (made === bandTaken && !isClosed) {
        isClosed = true;
        settle(states, count, count);
      }
      const room = made === bandDone ? rooms[band % rooms.length] : undefined;
      const from = band * rows;
      const to = Math.min(page.height, from + rows);
      for (let y = from; y < to; y++) {
        yield room === undefined
          ? own(y)
          : room.subarray(stride * (y - from), stride * (y - from) + size);
      }
    }
  } finally {
    settle(states, count, count);
  }
}

interface BandToAwait {
  readonly band: number;
  readonly rowAt: PageRow;
  readonly patience: number;
}

// How a band is when it has been waited for: bandOpen where it is to be made here. Meanwhile those after it are made.
function awaitBand(bands: PageBands, { band, rowAt, patience }: BandToAwait): number {
  const { states, rooms } = bands;
  const last = Date.now() + patience;
  const end = Math.min(states.length - 1, band + rooms.length);
  for (let next = band + 1; ;) {
    if (takeBand(states, band)) return bandOpen;
    const state = Atomics.load(states, band);
    if (state === bandDone) return state;
    if (Date.now() >= last) return bandTaken;
    if (next < end) makeBand(bands, next++, rowAt);
    else Atomics.wait(states, band, bandTaken, Math.max(1, Math.min(slice, last - Date.now())));
  }
}

function settle(states: Int32Array, index: number, value: number): void {
  Atomics.store(states, index, value);
  Atomics.notify(states, index);
}
