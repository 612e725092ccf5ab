import type { Raster } from '../raster/raster.js';
import { listAgain } from '../raster/list-again.js';
import type { RowSource } from '../raster/row-source.js';
import type { Dpi } from '../units/units.js';
import { copyRows, type PageWindow, type TileBytes } from './copy-rows.js';
import { encodeTile } from './encode-tile.js';
import { isLaid } from './lay-copies.js';

/** Makes the rows of a wall in place of a tile's copies, each in one buffer that is written anew for the next. */
export type WallRows = (page: PageWindow & { readonly channels: 3 | 4 }) => Iterable<Uint8Array>;

/**
 * Lay a tile over a page, opaque from edge to edge.
 *
 * @param tile - Repeats every `width` by `height` pixels.
 * @param page - What is shown of it, and how fine that is printed.
 * @param wall - What makes the rows instead, where the tile's copies are not alike.
 * @returns Its rows, which repeat with the tile.
 */
export function layRows(
  tile: Raster,
  page: PageWindow & { readonly dpi: Dpi },
  wall: WallRows | null,
): RowSource {
  const { width, height, dpi, left, top } = page;
  if (wall !== null)
    return { width, height, dpi, isVaried: true, rows: () => wall({ ...page, channels: 3 }) };
  let bytes: TileBytes | null = null;
  return {
    width,
    height,
    dpi,
    ...(tile.height < height && { period: tile.height }),
    ...(tile.width < width && { across: tile.width }),
    ...(isLaid(tile) && {
      again: {
        rows: listAgain({ period: tile.height, starts: tile.starts.y }, top, height),
        columns: listAgain({ period: tile.width, starts: tile.starts.x }, left, width),
      },
    }),
    rows: () => copyRows((bytes ??= encodeTile(tile)), page),
  };
}
