import type { Raster } from '../../raster/raster.js';

/**
 * Two windows on one picture that are to become one: what follows the tile's end, and the tile's
 * own beginning. In square roots of light, where equal steps look about equal. Whichever axis is
 * mended, it runs along the rows here.
 */
export interface Overlap {
  /** Columns: the margin before the overlap, the overlap, the margin after it. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Columns before and after the overlap, in which a correction may fade out. */
  readonly margin: number;
  /** Colour by colour, what follows the tile's end. */
  readonly ending: readonly Float32Array[];
  /** Colour by colour, the tile's own beginning. */
  readonly beginning: readonly Float32Array[];
}

/** Where the two windows lie along the mended axis. */
export interface OverlapWindow {
  /** Which axis is mended. */
  readonly axis: 'x' | 'y';
  /** Where the tile begins. */
  readonly start: number;
  /** After how many pixels it repeats. */
  readonly period: number;
  /** Pixels of overlap. */
  readonly overlap: number;
  /** Pixels before and after it. */
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
  const { axis, start, period, overlap, margin } = window;
  const across = axis === 'x' ? raster.height : raster.width;
  const size = { width: overlap + 2 * margin, height: across };
  const take = (first: number): Float32Array[] =>
    raster.planes.map((plane) => rootsOf(plane, raster, { ...size, first, axis }));
  return {
    ...size,
    margin,
    ending: take(start + period - margin),
    beginning: take(start - margin),
  };
}

function rootsOf(
  plane: Float32Array,
  raster: Raster,
  to: {
    readonly width: number;
    readonly height: number;
    readonly first: number;
    readonly axis: 'x' | 'y';
  },
): Float32Array {
  const { width, height, first, axis } = to;
  const length = axis === 'x' ? raster.width : raster.height;
  const [along, across] = axis === 'x' ? [1, raster.width] : [raster.width, 1];
  const out = new Float32Array(width * height);
  for (let x = 0; x < width; x++) {
    let from = Math.min(length - 1, Math.max(0, first + x)) * along;
    for (let at = x; at < out.length; at += width) {
      const light = plane[from]!;
      out[at] = light > 0 ? Math.sqrt(light) : 0;
      from += across;
    }
  }
  return out;
}

/**
 * Put the window that two became back where the tile meets itself.
 *
 * @param tile - Exactly one period along the mended axis; its planes are written to.
 * @param windows - The two that were.
 * @param joined - What they became, colour by colour.
 * @param axis - Which axis is mended.
 */
export function putOverlap(
  tile: Raster,
  windows: Overlap,
  joined: readonly Float32Array[],
  axis: 'x' | 'y',
): void {
  const length = axis === 'x' ? tile.width : tile.height;
  const [along, across] = axis === 'x' ? [1, tile.width] : [tile.width, 1];
  for (let channel = 0; channel < 3; channel++) {
    const from = joined[channel]!;
    const to = tile.planes[channel]!;
    for (let x = 0; x < windows.width; x++) {
      let place = ((x - windows.margin + length) % length) * along;
      for (let at = x; at < from.length; at += windows.width) {
        const root = from[at]!;
        to[place] = root > 0 ? root * root : 0;
        place += across;
      }
    }
  }
}
