import { gridOf, openPlaces, type PagePlaces } from '../../finish/weather/open-places.js';
import type { PlaceRows } from '../../finish/weather/paint-rows.js';
import { veilStep } from '../../finish/weather/veil.js';

/**
 * Rows of places under a page, which threads reckon band by band: each band whoever takes it first. All arrays lie in
 * memory that they share.
 */
export interface PlaceBands {
  /** Where they lie, and what they are reckoned from. */
  readonly page: PagePlaces;
  /** Rows of a band; the last may have fewer. */
  readonly rows: number;
  /**
   * How far each band is, {@link bandOpen} and on; and last, which of them is being read, their number once none is any
   * more.
   */
  readonly states: Int32Array;
  /** Room for the bands from that one on, which are used in turn. */
  readonly rooms: readonly Float32Array[];
}

/** Nobody has taken the band. */
export const bandOpen = 0;
/** Somebody makes it. */
export const bandTaken = 1;
/** It lies in its room. */
export const bandDone = 2;

// Milliseconds after which who has a band will not be heard of again. The reader's process does nothing else meanwhile, and
// would make all places of a page of A4 in less.
const patience = 1000;

/**
 * Reckon whatever bands nobody else does, as soon as there is room, until the last is being read.
 *
 * @param bands - Of a page.
 */
export function makeBands(bands: PlaceBands): void {
  const { page, states, rooms } = bands;
  const count = countOf(states);
  const placesAt = openPlaces(page);
  for (let band = 0; band < count; band++) {
    for (let read = Atomics.load(states, count); band >= read + rooms.length;) {
      Atomics.wait(states, count, read);
      read = Atomics.load(states, count);
    }
    if (takeBand(states, band)) makeBand(bands, band, placesAt);
  }
}

// Take a band, if nobody has: whether it is the caller's to make. None are open once no room is given any more.
function takeBand(states: Int32Array, band: number): boolean {
  const count = countOf(states);
  if (Atomics.load(states, count) === count) return false;
  return Atomics.compareExchange(states, band, bandOpen, bandTaken) === bandOpen;
}

function makeBand({ page, rows, states, rooms }: PlaceBands, band: number, at: PlaceRows): void {
  const room = rooms[band % rooms.length]!;
  const { top, rows: all } = gridOf(page);
  try {
    const from = band * rows;
    const to = Math.min(all, from + rows);
    for (let row = from, start = 0; row < to; row++) {
      const numbers = at(top + row);
      room.set(numbers, start);
      start += numbers.length;
    }
  } catch (error) {
    // Whoever reads the band makes it.
    settle(states, band, bandOpen);
    throw error;
  }
  settle(states, band, bandDone);
}

/** Reads places of a page. */
export interface BandsReader {
  /** Gives a row, those of a page one after the other. */
  readonly placesAt: PlaceRows;
  /** Says that no more are read. */
  readonly close: () => void;
}

/**
 * Read rows of places in turn: those of bands that lie in their rooms, and what no thread has taken is made here.
 *
 * @param bands - Of a page.
 * @returns What reads them.
 */
export function readBands(bands: PlaceBands): BandsReader {
  const { page, rows, states, rooms } = bands;
  const count = countOf(states);
  const { top, count: places } = gridOf(page);
  const size = veilStep * places;
  let own: PlaceRows | null = null;
  let at = -1;
  let isDone = false;
  let isClosed = false;
  const close = (): void => {
    isClosed = true;
    settle(states, count, count);
  };
  const turnTo = (band: number): void => {
    at = band;
    if (!isClosed) settle(states, count, band);
    const state = isClosed ? Atomics.load(states, band) : awaitBand(states, band);
    isDone = state === bandDone;
    // Whoever is late may still write into its room: no room is given to another band from here on.
    if (state === bandTaken) close();
  };
  const placesAt: PlaceRows = (number) => {
    const row = number - top;
    const band = Math.floor(row / rows);
    if (band !== at) turnTo(band);
    if (!isDone) return (own ??= openPlaces(page))(number);
    const start = (row - band * rows) * size;
    return rooms[band % rooms.length]!.subarray(start, start + size);
  };
  return { placesAt, close };
}

// How a band is when it has been waited for: bandOpen where it is to be made here.
function awaitBand(states: Int32Array, band: number): number {
  const last = Date.now() + patience;
  for (;;) {
    if (takeBand(states, band)) return bandOpen;
    if (Atomics.load(states, band) === bandDone) return bandDone;
    const left = last - Date.now();
    if (left <= 0) return bandTaken;
    Atomics.wait(states, band, bandTaken, left);
  }
}

function settle(states: Int32Array, index: number, value: number): void {
  Atomics.store(states, index, value);
  Atomics.notify(states, index);
}

// How many bands there are: the last state is told of none.
function countOf(states: Int32Array): number {
  return states.length - 1;
}
