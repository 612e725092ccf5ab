import { encodeSrgbRun } from '../colour/srgb.js';
import type { Raster } from '../raster/raster.js';
import type { TileBytes } from './copy-rows.js';
import { isLaid } from './lay-copies.js';

/**
 * Encode a tile, or one copy of what it was laid of.
 *
 * @param tile - In linear light.
 * @returns RGB in sRGB.
 */
export function encodeTile(tile: Raster): TileBytes {
  const { width, height } = tile;
  const [copy, starts] = isLaid(tile) ? [tile.copy, tile.starts] : [tile, { x: [0], y: [0] }];
  const bytes = encodeSrgbRun(copy.planes, 0, new Uint8Array(3 * copy.width * copy.height));
  return { width, height, channels: 3, columns: copy.width, starts, bytes };
}
