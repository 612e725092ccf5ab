import { outOfRange } from '../errors/out-of-range.js';

/** A picture in planar linear light. */
export interface Raster {
  /** Columns, 1 or more. */
  readonly width: number;
  /** Rows, 1 or more. */
  readonly height: number;
  /**
   * Red, green, blue: `width * height` samples each, row by row from the top left, 0 black to
   * 1 white in linear light, unclamped until written.
   */
  readonly planes: readonly [Float32Array, Float32Array, Float32Array];
}

/**
 * Make a black picture.
 *
 * @param width - Columns, a whole number of 1 or more.
 * @param height - Rows, a whole number of 1 or more.
 * @returns A raster that owns its planes.
 * @throws RangeError when a side is not a whole number of 1 or more.
 */
export function createRaster(width: number, height: number): Raster {
  if (!(Number.isInteger(width) && width >= 1)) {
    throw outOfRange('a whole number of 1 or more', 'width', width);
  }
  if (!(Number.isInteger(height) && height >= 1)) {
    throw outOfRange('a whole number of 1 or more', 'height', height);
  }
  const size = width * height;
  return {
    width,
    height,
    planes: [new Float32Array(size), new Float32Array(size), new Float32Array(size)],
  };
}
