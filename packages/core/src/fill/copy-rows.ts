/** Which rows of a tile's repeat a page shows. */
export interface PageWindow {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** The tile's column that lies on the page's first, of any sign. */
  readonly left: number;
  /** The tile's row that lies on the page's first, of any sign. */
  readonly top: number;
}

/** A tile in bytes. */
export interface TileBytes {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Bytes of a pixel. */
  readonly channels: 3 | 4;
  /** Row by row from the top left. */
  readonly bytes: Uint8Array;
}

/**
 * Lay a tile side by side and one above the other, a row at a time.
 *
 * @param tile - What repeats.
 * @param page - What is shown of it.
 * @yields Each row, in one buffer that is written anew for the next.
 */
export function* copyRows(tile: TileBytes, page: PageWindow): Generator<Uint8Array> {
  const { bytes, channels } = tile;
  const period = channels * tile.width;
  const row = new Uint8Array(channels * page.width);
  const shift = channels * around(page.left, tile.width);
  const first = Math.min(row.length, period - shift);
  let tileRow = around(page.top, tile.height);
  for (let y = 0; y < page.height; y++) {
    const start = tileRow * period;
    row.set(bytes.subarray(start + shift, start + shift + first));
    const rest = Math.min(row.length - first, shift);
    if (rest > 0) row.set(bytes.subarray(start, start + rest), first);
    // The first period stands: every copy doubles what stands.
    for (let done = period; done < row.length; done *= 2) row.copyWithin(done, 0, done);
    yield row;
    tileRow = tileRow + 1 === tile.height ? 0 : tileRow + 1;
  }
}

function around(at: number, period: number): number {
  return at - Math.floor(at / period) * period;
}
