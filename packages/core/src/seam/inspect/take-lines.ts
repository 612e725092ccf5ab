import { type LineSource, toLines } from '../../raster/line-source.js';
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
  const plane = (): Float32Array => new Float32Array(count * length);
  const planes = [plane(), plane(), plane()] as const;
  const take = axis === 'x' ? takeRows : takeColumns;
  take(toLines(raster), lines, planes);
  return { count, length, planes };
}

const channels = [0, 1, 2] as const;

function takeRows({ width, line }: LineSource, lines: Int32Array, out: TakenLines['planes']): void {
  for (const [nth, y] of lines.entries()) {
    for (const channel of channels) out[channel].set(line(channel, y), nth * width);
  }
}

// Row by row, as they lie in memory: column by column takes several times as long.
function takeColumns(
  { height, line }: LineSource,
  lines: Int32Array,
  out: TakenLines['planes'],
): void {
  for (let y = 0; y < height; y++) {
    for (const channel of channels) {
      const row = line(channel, y);
      const to = out[channel];
      for (let nth = 0, at = y; nth < lines.length; nth++, at += height) to[at] = row[lines[nth]!]!;
    }
  }
}
