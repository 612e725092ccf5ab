import { encodeSrgbRun } from '../colour/srgb.js';
import type { Raster } from '../raster/raster.js';
import type { TileBytes } from './copy-rows.js';
import { isLaid, layRuns } from './lay-copies.js';

/**
 * Encode a tile, each copy of what it was laid of once.
 *
 * @param tile - In linear light.
 * @returns RGB in sRGB.
 */
export function encodeTile(tile: Raster): TileBytes {
  const { width, height } = tile;
  const once = isLaid(tile) ? tile.copy : tile;
  const encoded = encodeSrgbRun(once.planes, 0, new Uint8Array(3 * once.width * once.height));
  const bytes = isLaid(tile)
    ? layRuns(encoded, new Uint8Array(3 * width * height), { tile, channels: 3 })
    : encoded;
  return { width, height, channels: 3, bytes };
}
