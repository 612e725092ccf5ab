import { outOfRange } from '../errors/out-of-range.js';
import type { Raster } from '../raster/raster.js';
import { type LineSource, toLines } from '../raster/line-source.js';
import { resampleLines } from '../raster/resample-raster.js';
import type { PerAxis } from '../surface/measurement.js';

/** Which part of a photo, and how large. */
export interface ToPrintOptions {
  /** Printed dots per photo pixel, above 0. */
  readonly factor: PerAxis<number>;
  /** Along which axes the photo meets itself, so that its edges are made of both sides; none unless told. */
  readonly wrap?: PerAxis<boolean>;
  /** The part wanted in photo pixels, seldom whole; the whole photo unless told. */
  readonly window?: {
    /** Left edge. */
    readonly x: number;
    /** Top edge. */
    readonly y: number;
    /** From left to right, above 0. */
    readonly width: number;
    /** From top to bottom, above 0. */
    readonly height: number;
  };
}

interface PrintAxis {
  readonly size: number;
  readonly start: number;
  readonly extent: number;
}

/**
 * Bring a photo, or a part of it, to print resolution. The size is `round(pixels * factor)`, and
 * the fraction of a dot that rounding takes or adds is cut off or made of the last pixels, never
 * stretched over the picture: the factor holds exactly.
 *
 * @param raster - The photo, level.
 * @param options - The part, and the factor.
 * @returns The same in printed dots.
 * @throws RangeError when a factor is not above 0 or the window is not inside.
 */
export function toPrintResolution(raster: Raster, options: ToPrintOptions): Raster {
  return linesToPrint(toLines(raster), options);
}

/**
 * The same of a photo that is never held in linear light.
 *
 * @param lines - The photo, level.
 * @param options - As for {@link toPrintResolution}.
 * @returns The same in printed dots.
 * @throws RangeError when a factor is not above 0 or the window is not inside.
 */
export function linesToPrint(lines: LineSource, options: ToPrintOptions): Raster {
  const { factor, wrap = { x: false, y: false } } = options;
  const { window = { x: 0, y: 0, width: lines.width, height: lines.height } } = options;
  const x = dots(window.x, window.width, factor.x);
  const y = dots(window.y, window.height, factor.y);
  return resampleLines(lines, {
    width: x.size,
    height: y.size,
    wrap,
    window: { x: x.start, y: y.start, width: x.extent, height: y.extent },
  });
}

function dots(start: number, length: number, factor: number): PrintAxis {
  if (!(factor > 0 && factor < Infinity)) {
    throw outOfRange('a finite number above 0', 'factor', factor);
  }
  const size = Math.max(1, Math.round(length * factor));
  return { size, start, extent: size / factor };
}
