/**
 * Filter the first row of a picture, or of a period of rows that follows itself: each byte less the
 * one of the pixel to its left, so that nothing above is needed.
 *
 * @param row - RGBRGB… or RGBARGBA…
 * @param out - A byte longer; filled with the filter's number, then the filtered row.
 * @param channels - Bytes of a pixel.
 * @see PNG Specification, 9.2: filter type 1, Sub
 */
export function filterSub(row: Uint8Array, out: Uint8Array, channels: number): void {
  out[0] = 1;
  for (let i = 0; i < channels; i++) out[i + 1] = row[i]!;
  for (let i = channels; i < row.length; i++) out[i + 1] = row[i]! - row[i - channels]!;
}

/**
 * Repeat what a filter made of the beginning of a row whose pixels repeat: so does it, from the second
 * pixel on.
 *
 * @param out - A filtered row, its beginning filled.
 * @param across - Bytes after which the row repeats.
 * @param channels - Bytes of a pixel; `across + channels + 1` are filled.
 */
export function repeatFiltered(out: Uint8Array, across: number, channels: number): void {
  for (let done = across + channels + 1; done < out.length; done += across) {
    out.copyWithin(done, done - across, done);
  }
}

/**
 * Filter a row that has one above it: each byte less its Paeth prediction. Measured on fills it
 * makes files of brick about 4 % smaller than Up, of gravel no smaller; choosing among all five
 * filters for each row gains 2 % at most, at two to three times the time.
 *
 * @param filtered - Where to put it: a byte longer than a row, and filled with the filter's number first.
 * @param row - RGBRGB… or RGBARGBA…
 * @param above - The row above, as long.
 * @param channels - Bytes of a pixel.
 * @see PNG Specification, 9.4: filter type 4, Paeth
 */
export function filterPaeth(
  filtered: Uint8Array,
  row: Uint8Array,
  above: Uint8Array,
  channels: number,
): void {
  filtered[0] = 4;
  for (let channel = 0; channel < channels; channel++) {
    let a = 0;
    let c = 0;
    for (let i = channel; i < row.length; i += channels) {
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
