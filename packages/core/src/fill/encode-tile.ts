import { encodeSrgbRun, toSrgb } from '../colour/srgb.js';
import type { Raster } from '../raster/raster.js';
import type { TileSamples } from './copy-rows.js';
import { isLaid } from './lay-copies.js';

/**
 * Encode a tile, or one copy of what it was laid of.
 *
 * @param tile - In linear light.
 * @returns RGB in sRGB, in bytes.
 */
export function encodeTile(tile: Raster): TileSamples<Uint8Array> {
  const { copy, ...laid } = laidOf(tile);
  const bytes = encodeSrgbRun(copy.planes, 0, new Uint8Array(3 * copy.width * copy.height));
  const stride = 3 * copy.width;
  return {
    ...laid,
    row: (y) => bytes.subarray(stride * y, stride * (y + 1)),
    room: (count) => new Uint8Array(count),
  };
}

/**
 * Encode a tile without rounding it, row by row as rows are asked for, each once.
 *
 * @param tile - In linear light.
 * @returns RGB in sRGB, 0 to 1.
 */
export function encodeColours(tile: Raster): TileSamples<Float32Array> {
  const { copy, ...laid } = laidOf(tile);
  const { width, height, planes } = copy;
  const rows: Float32Array[] = new Array<Float32Array>(height);
  const encode = (y: number): Float32Array => {
    const row = new Float32Array(3 * width);
    planes.forEach((plane, channel) => {
      for (let from = y * width, to = channel; to < row.length; from++, to += 3) {
        row[to] = toSrgb(plane[from]!);
      }
    });
    return row;
  };
  return { ...laid, row: (y) => (rows[y] ??= encode(y)), room: (count) => new Float32Array(count) };
}

type Laid = Omit<TileSamples<Uint8Array>, 'row' | 'room'> & { readonly copy: Raster };

function laidOf(tile: Raster): Laid {
  const { width, height } = tile;
  const [copy, starts] = isLaid(tile) ? [tile.copy, tile.starts] : [tile, { x: [0], y: [0] }];
  return { width, height, channels: 3, columns: copy.width, starts, copy };
}
