import type { Again } from '../../raster/list-again.js';

/** A row, and how it is filtered. */
export interface RowToFilter {
  /** RGBRGB… or RGBARGBA… */
  readonly row: Uint8Array;
  /** The row above, as long, or null where nothing above is to be looked at. */
  readonly above: Uint8Array | null;
  /** Bytes of a pixel. */
  readonly channels: number;
  /** Pixels that are the same as others before them, in both rows. */
  readonly again: readonly Again[];
}

/**
 * Filter a row of a picture. With nothing above, each byte less the one of the pixel to its left. Else less
 * its Paeth prediction: measured on fills it makes files of brick about 4 % smaller than Up, of gravel no
 * smaller; choosing among all five filters for each row gains 2 % at most, at two to three times the time.
 * Pixels that come again are filtered once: so does what is made of them, from the second on.
 *
 * @param filtered - Where to put it: a byte longer than the row, and filled with the filter's number first.
 * @param what - RGBRGB… or RGBARGBA…, and what is known of it.
 * @see PNG Specification, 9.2 to 9.4: filter types 1, Sub, and 4, Paeth
 */
export function filterRow(filtered: Uint8Array, what: RowToFilter): void {
  const { row, above, channels, again } = what;
  filtered[0] = above === null ? 1 : 4;
  const filter = (from: number, to: number): void => {
    if (above === null) filterSub(filtered, row, { channels, from, to });
    else filterPaeth(filtered, row, above, { channels, from, to });
  };
  let done = 0;
  for (const { at, from, length } of again) {
    filter(done, channels * (at + 1));
    const second = channels * (from + 1) + 1;
    filtered.copyWithin(channels * (at + 1) + 1, second, second + channels * (length - 1));
    done = channels * (at + length);
  }
  filter(done, row.length);
}

// Bytes of a row, on the border of pixels.
interface Span {
  readonly channels: number;
  readonly from: number;
  readonly to: number;
}

function filterSub(filtered: Uint8Array, row: Uint8Array, { channels, from, to }: Span): void {
  const first = Math.max(from, channels);
  for (let i = from; i < first && i < to; i++) filtered[i + 1] = row[i]!;
  for (let i = first; i < to; i++) filtered[i + 1] = row[i]! - row[i - channels]!;
}

function filterPaeth(
  filtered: Uint8Array,
  row: Uint8Array,
  above: Uint8Array,
  { channels, from, to }: Span,
): void {
  for (let channel = 0; channel < channels; channel++) {
    let a = from === 0 ? 0 : row[from - channels + channel]!;
    let c = from === 0 ? 0 : above[from - channels + channel]!;
    for (let i = from + channel; i < to; i += channels) {
      const x = row[i]!;
      const b = above[i]!;
      // Of left, above and above left, the one nearest to left + above - above left; by masks, for
      // photographs leave nothing to guess a branch by: 81 against 134 ms for an A4 page's period.
      const p = b - c;
      const q = a - c;
      const r = p + q;
      const pa = (p ^ (p >> 31)) - (p >> 31);
      const pb = (q ^ (q >> 31)) - (q >> 31);
      const pc = (r ^ (r >> 31)) - (r >> 31);
      const notA = ((pb - pa) >> 31) | ((pc - pa) >> 31);
      const notB = (pc - pb) >> 31;
      filtered[i + 1] = x - ((a & ~notA) | (((b & ~notB) | (c & notB)) & notA));
      a = x;
      c = b;
    }
  }
}
