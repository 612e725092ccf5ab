import type { Raster } from '../raster/raster.js';
import { listAgain } from '../raster/list-again.js';
import type { RowFinish } from '../raster/row-finish.js';
import type { RowSource } from '../raster/row-source.js';
import type { Dpi } from '../units/units.js';
import { copyRows, type PageWindow, type TileSamples } from './copy-rows.js';
import { encodeTile } from './encode-tile.js';
import { finishRows, tileGround, wallGround, type WallRows } from './finish-rows.js';
import { isLaid } from './lay-copies.js';

/** What is made of a tile's copies as they are laid. */
export interface LaidOver {
  /** What makes the rows instead, where the tile's copies are not alike; else null. */
  readonly wall: WallRows | null;
  /** What is done to the rows before they are rounded, in this order. */
  readonly finishes: readonly RowFinish[];
}

/**
 * Lay a tile over a page, opaque from edge to edge.
 *
 * @param tile - Repeats every `width` by `height` pixels.
 * @param page - What is shown of it, and how fine that is printed.
 * @param over - What becomes of it.
 * @returns Its rows, which repeat with the tile unless that hinders it.
 */
export function layRows(
  tile: Raster,
  page: PageWindow & { readonly dpi: Dpi },
  over: LaidOver,
): RowSource {
  const { wall, finishes } = over;
  const { width, height, dpi } = page;
  const whole = { ...page, piece: height, gap: 0 };
  if (wall !== null) return finishRows(wallGround(wall), whole, finishes);
  if (finishes.length > 0) {
    const finished = finishRows(tileGround(tile), whole, finishes);
    return finishes.every(({ isEven }) => isEven)
      ? { ...finished, ...repeatsOf(tile, page) }
      : finished;
  }
  let bytes: TileSamples<Uint8Array> | null = null;
  return {
    width,
    height,
    dpi,
    ...repeatsOf(tile, page),
    rows: () => copyRows((bytes ??= encodeTile(tile)), page),
  };
}

function repeatsOf(
  tile: Raster,
  { width, height, left, top }: PageWindow,
): Pick<RowSource, 'period' | 'across' | 'again'> {
  return {
    ...(tile.height < height && { period: tile.height }),
    ...(tile.width < width && { across: tile.width }),
    ...(isLaid(tile) && {
      again: {
        rows: listAgain({ period: tile.height, starts: tile.starts.y }, top, height),
        columns: listAgain({ period: tile.width, starts: tile.starts.x }, left, width),
      },
    }),
  };
}
