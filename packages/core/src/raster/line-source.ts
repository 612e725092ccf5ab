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
  /** The picture with rows and columns swapped, where it can be held likewise: in what takes less memory. */
  readonly transposed?: () => Raster;
}

/** Lines that stand at a time: what new pixels are made of seldom reaches further. */
export const linesKept = 16;

// Rasters that are still held as bytes. Beside them, not in them: a copy with other planes has no such lines.
const unlit = new WeakMap<Raster, LineSource>();

/**
 * Make a raster whose planes are made when they are first asked for: until then, whoever is content with
 * {@link toLines} reads it from what takes less memory.
 *
 * @param lines - The picture.
 * @param light - Makes its planes, of the same light; asked once.
 * @returns The raster; what `lines` holds is let go with the asking.
 */
export function lightLater(lines: LineSource, light: () => Raster['planes']): Raster {
  let made: Raster['planes'] | null = null;
  const raster: Raster = {
    width: lines.width,
    height: lines.height,
    get planes() {
      made ??= light();
      unlit.delete(raster);
      return made;
    },
  };
  unlit.set(raster, lines);
  return raster;
}

/**
 * Hand a raster out line by line.
 *
 * @param raster - In linear light.
 * @returns The same; its lines are the raster's own memory, but for one that is not in light yet.
 */
export function toLines(raster: Raster): LineSource {
  const held = unlit.get(raster);
  if (held !== undefined) return held;
  const { width, height, planes } = raster;
  const line = (channel: 0 | 1 | 2, y: number): Float32Array =>
    planes[channel].subarray(y * width, (y + 1) * width);
  return { width, height, line };
}
