import { toLines } from '../../raster/line-source.js';
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
  const { line } = toLines(raster);
  for (let y = 0; y < height; y++) {
    const [above, below] = [rows[2 * y]!, rows[2 * y + 1]!];
    for (const channel of [0, 1, 2] as const) {
      const to = small.planes[channel].subarray(y * width, (y + 1) * width);
      meanOfRows(line(channel, above), line(channel, below), columns, to);
    }
  }
  return { raster: small, times };
}

function meanOfRows(
  above: Float32Array,
  below: Float32Array,
  columns: Int32Array,
  to: Float32Array,
): void {
  for (let x = 0; x < to.length; x++) {
    const left = columns[2 * x]!;
    const right = columns[2 * x + 1]!;
    to[x] = (above[left]! + above[right]! + below[left]! + below[right]!) / 4;
  }
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
