import type { Raster } from '../raster/raster.js';

/** Lines of a picture along one axis, side by side in memory whichever axis it is. */
export interface SampledLines {
  /** Lines, 1 or more. */
  readonly count: number;
  /** Samples a line. */
  readonly length: number;
  /** `count * length` square roots of luminance, where equal steps look about equal. */
  readonly samples: Float32Array;
}

/**
 * Take lines out of a picture, evenly spread over it.
 *
 * @param raster - In linear light.
 * @param axis - `x` for rows, `y` for columns.
 * @param most - How many at most.
 * @returns Copies, in order.
 * @see Recommendation ITU-R BT.709, luminance of its primaries, which are those of sRGB
 */
export function sampleLines(raster: Raster, axis: 'x' | 'y', most: number): SampledLines {
  const { width, height } = raster;
  const [length, across] = axis === 'x' ? [width, height] : [height, width];
  const count = Math.min(across, most);
  const lines = Int32Array.from({ length: count }, (_, line) =>
    Math.floor(((line + 0.5) * across) / count),
  );
  const samples = new Float32Array(count * length);
  if (axis === 'x') takeRows(raster, lines, samples);
  else takeColumns(raster, lines, samples);
  return { count, length, samples };
}

function takeRows({ width, planes }: Raster, lines: Int32Array, samples: Float32Array): void {
  const [red, green, blue] = planes;
  let at = 0;
  for (const line of lines) {
    for (let from = line * width, end = from + width; from < end; from++) {
      const light = 0.2126 * red[from]! + 0.7152 * green[from]! + 0.0722 * blue[from]!;
      samples[at++] = Math.sqrt(light > 0 ? light : 0);
    }
  }
}

// Row by row, as they lie in memory: column by column takes several times as long.
function takeColumns(
  { width, height, planes }: Raster,
  lines: Int32Array,
  samples: Float32Array,
): void {
  const [red, green, blue] = planes;
  for (let y = 0, start = 0; y < height; y++, start += width) {
    for (let line = 0, at = y; line < lines.length; line++, at += height) {
      const from = start + lines[line]!;
      const light = 0.2126 * red[from]! + 0.7152 * green[from]! + 0.0722 * blue[from]!;
      samples[at] = Math.sqrt(light > 0 ? light : 0);
    }
  }
}
