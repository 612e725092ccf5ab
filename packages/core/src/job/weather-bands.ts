import { openPage, type WeatherPage } from '../finish/weather/paint-rows.js';
import type { ReadyWeather } from '../finish/weather/ready-weather.js';

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
  readonly rooms: readonly Float32Array[];
}

/** Nobody has taken the band. */
export const bandOpen = 0;
/** Somebody makes it. */
const bandTaken = 1;
/** It lies in its room. */
export const bandDone = 2;

/**
 * Take a band, if nobody has.
 *
 * @param states - Of {@link PageBands}.
 * @param band - Which.
 * @returns Whether it is the caller's to make.
 */
export function takeBand(states: Int32Array, band: number): boolean {
  return Atomics.compareExchange(states, band, bandOpen, bandTaken) === bandOpen;
}

/**
 * Make whatever bands of a page nobody else makes, as soon as there is room, until the last is being read.
 *
 * @param bands - The page.
 */
export function makeBands(bands: PageBands): void {
  const { ready, page, rows, states, rooms } = bands;
  const rowAt = openPage(ready, page);
  const count = states.length - 1;
  for (let band = 0; band < count; band++) {
    let read = Atomics.load(states, count);
    while (band >= read + rooms.length) {
      Atomics.wait(states, count, read);
      read = Atomics.load(states, count);
    }
    const room = rooms[band % rooms.length];
    if (band <= read || room === undefined || !takeBand(states, band)) continue;
    const from = band * rows;
    const to = Math.min(page.height, from + rows);
    for (let y = from; y < to; y++) room.set(rowAt(y), 3 * page.width * (y - from));
    Atomics.store(states, band, bandDone);
    Atomics.notify(states, band);
  }
}
