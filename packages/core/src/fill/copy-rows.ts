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

/** A tile's samples, or those of one copy of what it is laid of: bytes, or colours that are not yet rounded. */
export interface TileSamples<Samples extends Uint8Array | Float32Array> {
  /** Columns of the tile. */
  readonly width: number;
  /** Rows of the tile. */
  readonly height: number;
  /** Samples of a pixel. */
  readonly channels: 3 | 4;
  /** Columns of a copy. */
  readonly columns: number;
  /** Where each copy begins in the tile: 0 alone where it is laid once. */
  readonly starts: PerAxis<readonly number[]>;
  /** Gives a row of a copy, from its top. */
  readonly row: (y: number) => Samples;
  /** Makes room for so many samples. */
  readonly room: (count: number) => Samples;
}

/**
 * Lay a tile side by side and one above the other, a row at a time.
 *
 * @param tile - What repeats.
 * @param page - What is shown of it.
 * @yields Each row, in one buffer that is written anew for the next, so that it may be changed.
 */
export function* copyRows<Samples extends Uint8Array | Float32Array>(
  tile: TileSamples<Samples>,
  page: PageWindow,
): Generator<Samples> {
  const { channels, starts } = tile;
  const line = tile.room(channels * tile.width);
  const row = tile.room(channels * page.width);
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
function layLine<Samples extends Uint8Array | Float32Array>(
  tile: TileSamples<Samples>,
  y: number,
  line: Samples,
): void {
  const { channels, columns, starts } = tile;
  const row = tile.row(y);
  for (const left of starts.x) {
    const length = Math.min(channels * columns, line.length - channels * left);
    line.set(row.subarray(0, length), channels * left);
  }
}
