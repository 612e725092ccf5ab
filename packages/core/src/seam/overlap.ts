import type { Raster } from '../raster/raster.js';

/**
 * Two windows on one picture that are to become one: what follows the tile's right end, and the
 * tile's own beginning. In square roots of light, where equal steps look about equal.
 */
export interface Overlap {
  /** Columns: the margin left of the overlap, the overlap, the margin right of it. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Columns before and after the overlap, in which a correction may fade out. */
  readonly margin: number;
  /** Colour by colour, what follows the tile's right end. */
  readonly ending: readonly Float32Array[];
  /** Colour by colour, the tile's own beginning. */
  readonly beginning: readonly Float32Array[];
}

/** Where the two windows lie. */
export interface OverlapWindow {
  /** Column where the tile begins. */
  readonly start: number;
  /** Columns after which it repeats. */
  readonly period: number;
  /** Columns of overlap. */
  readonly overlap: number;
  /** Columns before and after it. */
  readonly margin: number;
}

/**
 * Take the two windows out of a picture.
 *
 * @param raster - In linear light, left as it is.
 * @param window - Where they lie; past the picture's edge the edge is held.
 * @returns Copies.
 */
export function takeOverlap(raster: Raster, window: OverlapWindow): Overlap {
  const { start, period, overlap, margin } = window;
  const size = { width: overlap + 2 * margin, height: raster.height };
  const take = (first: number): Float32Array[] =>
    raster.planes.map((plane) => rootsOf(plane, raster.width, first, size));
  return {
    ...size,
    margin,
    ending: take(start + period - margin),
    beginning: take(start - margin),
  };
}

function rootsOf(
  plane: Float32Array,
  stride: number,
  first: number,
  size: { readonly width: number; readonly height: number },
): Float32Array {
  const { width, height } = size;
  const out = new Float32Array(width * height);
  for (let y = 0; y < height; y++) {
    const row = y * stride;
    for (let x = 0; x < width; x++) {
      const from = Math.min(stride - 1, Math.max(0, first + x));
      out[y * width + x] = Math.sqrt(Math.max(0, plane[row + from]!));
    }
  }
  return out;
}
