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
   * How far each band is, {@link bandOpen} and on; then which of them is being read, {@link notRead} before the first
   * and their number at the end; and last, how many threads reckon them.
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
/** Nobody reads yet: there is room for the first bands. */
export const notRead = -1;

// Milliseconds after which a band that is waited for is looked at again.
const slice = 250;

/**
 * Reckon whatever bands nobody else does, as soon as there is room, until the last is being read.
 *
 * @param bands - Of a page.
 * @param patience - Milliseconds after which nobody will read them any more.
 */
export function makeBands(bands: PlaceBands, patience = 60_000): void {
  const { page, states, rooms } = bands;
  const { count, reading, makers } = placesIn(states);
  Atomics.add(states, makers, 1);
  try {
    const placesAt = openPlaces(page);
    for (let band = 0; band < count; band++) {
      for (let read = Atomics.load(states, reading); band >= Math.max(0, read) + rooms.length;) {
        const heard = Atomics.wait(states, reading, read, patience);
        if (heard === 'timed-out' && read === notRead) return;
        read = Atomics.load(states, reading);
      }
      if (takeBand(states, band)) makeBand(bands, band, placesAt);
    }
  } finally {
    Atomics.sub(states, makers, 1);
  }
}

// Take a band, if nobody has: whether it is the caller's to make. None are open once no room is given any more.
function takeBand(states: Int32Array, band: number): boolean {
  const { count, reading } = placesIn(states);
  if (Atomics.load(states, reading) === count) return false;
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

/**
 * Say that no more bands are read: whoever makes them ends.
 *
 * @param bands - Of a page.
 */
export function endBands(bands: PlaceBands): void {
  const { states } = bands;
  const { count, reading } = placesIn(states);
  settle(states, reading, count);
}

/** Reads places of a page. */
export interface BandsReader {
  /** Gives a row, those of a page one after the other. */
  readonly placesAt: PlaceRows;
  /** Says that no more are read. */
  readonly close: () => void;
}

/**
 * Read rows of places in turn: those of bands that lie in their rooms, and what no thread makes is made here. As long as
 * there is a thread, a band is waited for: to compile here what reckons it would take longer.
 *
 * @param bands - Of a page.
 * @param patience - Milliseconds after which who has a band will not be heard of again.
 * @returns What reads them.
 */
export function readBands(bands: PlaceBands, patience = 20_000): BandsReader {
  const { page, rows, states, rooms } = bands;
  const { reading } = placesIn(states);
  const { top, count: places } = gridOf(page);
  const size = veilStep * places;
  let own: PlaceRows | null = null;
  let at = -1;
  let isDone = false;
  let isClosed = false;
  const close = (): void => {
    isClosed = true;
    endBands(bands);
  };
  const turnTo = (band: number): void => {
    at = band;
    if (!isClosed) settle(states, reading, band);
    const state = isClosed ? Atomics.load(states, band) : awaitBand(states, band, patience);
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

// How a band is when it has been waited for: bandOpen where it is to be made here, for there is no thread, or none that
// comes by: one that failed left it.
function awaitBand(states: Int32Array, band: number, patience: number): number {
  const { makers } = placesIn(states);
  const last = Date.now() + patience;
  for (let isLate = false; ;) {
    const state = Atomics.load(states, band);
    if (state === bandDone) return state;
    const isMine = isLate || Atomics.load(states, makers) === 0;
    if (isMine && takeBand(states, band)) return bandOpen;
    const left = last - Date.now();
    if (left <= 0) return bandTaken;
    const heard = Atomics.wait(states, band, state, Math.max(1, Math.min(slice, left)));
    isLate = heard === 'timed-out';
  }
}

function settle(states: Int32Array, index: number, value: number): void {
  Atomics.store(states, index, value);
  Atomics.notify(states, index);
}

// How many bands there are, and where in their states stands what is told of none.
function placesIn(states: Int32Array): {
  readonly count: number;
  readonly reading: number;
  readonly makers: number;
} {
  const count = states.length - 2;
  return { count, reading: count, makers: count + 1 };
}
