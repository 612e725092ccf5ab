import { wrapInto } from '../numeric/wrap-into.js';
import type { PerAxis } from '../surface/measurement.js';

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

/** A tile in bytes, or one copy of what it is laid of. */
export interface TileBytes {
  /** Columns of the tile. */
  readonly width: number;
  /** Rows of the tile. */
  readonly height: number;
  /** Bytes of a pixel. */
  readonly channels: 3 | 4;
  /** Columns of a copy. */
  readonly columns: number;
  /** Where each copy begins in the tile: 0 alone where it is laid once. */
  readonly starts: PerAxis<readonly number[]>;
  /** Of a copy, row by row from the top left. */
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
  const { channels, starts } = tile;
  const line = new Uint8Array(channels * tile.width);
  const row = new Uint8Array(channels * page.width);
  const shift = channels * wrapInto(page.left, tile.width);
  const first = Math.min(row.length, line.length - shift);
  let tileRow = wrapInto(page.top, tile.height);
  for (let y = 0; y < page.height; y++) {
    const top = starts.y.findLast((start) => start <= tileRow) ?? 0;
    layLine(tile, tileRow - top, line);
    row.set(line.subarray(shift, shift + first));
    const rest = Math.min(row.length - first, shift);
    if (rest > 0) row.set(line.subarray(0, rest), first);
    // The first period stands: every copy doubles what stands.
    for (let done = line.length; done < row.length; done *= 2) row.copyWithin(done, 0, done);
    yield row;
    tileRow = tileRow + 1 === tile.height ? 0 : tileRow + 1;
  }
}

// Each copy over the end of the one before.
function layLine(tile: TileBytes, y: number, line: Uint8Array): void {
  const { channels, columns, starts, bytes } = tile;
  const begin = channels * columns * y;
  for (const left of starts.x) {
    const length = Math.min(channels * columns, line.length - channels * left);
    line.set(bytes.subarray(begin, begin + length), channels * left);
  }
}
