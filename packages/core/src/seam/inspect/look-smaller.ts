import { createRaster, type Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';

/** A picture as it is looked at. */
export interface Look {
  /** All of it, with fewer pixels. */
  readonly raster: Raster;
  /** Pixels of the picture to one of these. */
  readonly times: PerAxis<number>;
}

// A seam that nobody sees in so many pixels of a tile, nobody sees on paper.
const enough = 1024;

/**
 * Look at a picture in about a thousand pixels each way: of every square of pixels that become one,
 * four are read, which tell its lightness as well for what is judged over whole lines.
 *
 * @param raster - In linear light, left as it is.
 * @returns The same where it is no larger than one and a half times that.
 */
export function lookSmaller(raster: Raster): Look {
  const width = fewer(raster.width);
  const height = fewer(raster.height);
  const times = { x: raster.width / width, y: raster.height / height };
  if (times.x === 1 && times.y === 1) return { raster, times };
  const small = createRaster(width, height);
  const columns = pairsOf(width, times.x);
  const rows = pairsOf(height, times.y);
  raster.planes.forEach((plane, channel) => {
    const to = small.planes[channel]!;
    for (let y = 0, at = 0; y < height; y++) {
      const above = rows[2 * y]! * raster.width;
      const below = rows[2 * y + 1]! * raster.width;
      for (let x = 0; x < width; x++, at++) {
        const left = columns[2 * x]!;
        const right = columns[2 * x + 1]!;
        to[at] =
          (plane[above + left]! +
            plane[above + right]! +
            plane[below + left]! +
            plane[below + right]!) /
          4;
      }
    }
  });
  return { raster: small, times };
}

function fewer(length: number): number {
  const step = Math.max(1, Math.round(length / enough));
  return Math.max(1, Math.round(length / step));
}

// The two samples, a quarter from either end, that stand for those that become one.
function pairsOf(size: number, times: number): Int32Array {
  const pairs = new Int32Array(2 * size);
  for (let i = 0; i < size; i++) {
    pairs[2 * i] = Math.floor((i + 0.25) * times);
    pairs[2 * i + 1] = Math.floor((i + 0.75) * times);
  }
  return pairs;
}
