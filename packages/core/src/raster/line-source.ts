import type { AxisWeights } from './axis-weights.js';
import type { Raster } from './raster.js';

/** A picture whose lines are made when they are asked for, such as one that is held as bytes. */
export interface LineSource {
  /** Columns, 1 or more. */
  readonly width: number;
  /** Rows, 1 or more. */
  readonly height: number;
  /**
   * One line of one channel, in linear light, `width` samples; not to be changed. It stands until
   * {@link linesKept} other lines were asked for.
   */
  readonly line: (channel: 0 | 1 | 2, y: number) => Float32Array;
  /** As `narrowLines`, to the same numbers, where lines are made and can be made narrower at once. */
  readonly narrowed?: (across: AxisWeights) => (y: number) => Float64Array;
}

/** Lines that stand at a time: what new pixels are made of seldom reaches further. */
export const linesKept = 16;

/**
 * Hand a raster out line by line.
 *
 * @param raster - In linear light.
 * @returns The same; its lines are the raster's own memory and stand as long as it does.
 */
export function toLines(raster: Raster): LineSource {
  const { width, height, planes } = raster;
  const line = (channel: 0 | 1 | 2, y: number): Float32Array =>
    planes[channel].subarray(y * width, (y + 1) * width);
  return { width, height, line };
}
