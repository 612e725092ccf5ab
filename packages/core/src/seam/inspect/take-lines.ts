import type { Raster } from '../../raster/raster.js';

/** Lines of a picture along one axis, side by side in memory whichever axis it is. */
export interface TakenLines {
  /** Lines, 1 or more. */
  readonly count: number;
  /** Samples a line. */
  readonly length: number;
  /** Red, green, blue: `count * length` samples each, a line after another. */
  readonly planes: readonly [Float32Array, Float32Array, Float32Array];
}

/**
 * Take lines out of a picture, evenly spread over it.
 *
 * @param raster - In linear light.
 * @param axis - `x` for rows, `y` for columns.
 * @param most - How many at most.
 * @returns Copies, in order.
 */
export function takeLines(raster: Raster, axis: 'x' | 'y', most: number): TakenLines {
  const { width, height } = raster;
  const [length, across] = axis === 'x' ? [width, height] : [height, width];
  const count = Math.min(across, most);
  const lines = Int32Array.from({ length: count }, (_, line) =>
    Math.floor(((line + 0.5) * across) / count),
  );
  const take = axis === 'x' ? takeRows : takeColumns;
  const [red, green, blue] = raster.planes;
  const size = { width, height };
  const planes = [
    take(red, size, lines),
    take(green, size, lines),
    take(blue, size, lines),
  ] as const;
  return { count, length, planes };
}

interface Size {
  readonly width: number;
  readonly height: number;
}

function takeRows(plane: Float32Array, { width }: Size, lines: Int32Array): Float32Array {
  const out = new Float32Array(lines.length * width);
  for (let line = 0; line < lines.length; line++) {
    const from = lines[line]! * width;
    out.set(plane.subarray(from, from + width), line * width);
  }
  return out;
}

// Row by row, as they lie in memory: column by column takes several times as long.
function takeColumns(
  plane: Float32Array,
  { width, height }: Size,
  lines: Int32Array,
): Float32Array {
  const out = new Float32Array(lines.length * height);
  for (let y = 0, start = 0; y < height; y++, start += width) {
    for (let line = 0, at = y; line < lines.length; line++, at += height) {
      out[at] = plane[start + lines[line]!]!;
    }
  }
  return out;
}
