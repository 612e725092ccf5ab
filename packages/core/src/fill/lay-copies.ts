import type { Raster } from '../raster/raster.js';
import type { PerAxis } from '../surface/measurement.js';
import type { AxisPlan } from './plan-tile.js';

/** How often a picture is laid, in how many dots. */
export type CopiesPlan = Pick<AxisPlan, 'copies' | 'period'>;

/** A tile laid of copies of one picture. Its planes are laid for whoever looks at them. */
export interface LaidTile extends Raster {
  /** What is laid. */
  readonly copy: Raster;
  /** Where each copy begins, in dots: the next one lies over its last dot where that is one too many. */
  readonly starts: PerAxis<readonly number[]>;
}

/**
 * Lay a picture side by side and one above the other, each time on the nearest whole dot. Copies are then
 * the same to the byte, and a file finds them again; brought to print one by one they would differ by
 * parts of a dot.
 *
 * @param copy - As many dots as one copy comes to, or one begins.
 * @param plan - How often it is laid, in how many dots.
 * @returns The tile; the copy itself where it is laid once.
 */
export function layCopies(copy: Raster, plan: PerAxis<CopiesPlan>): Raster {
  const { x, y } = plan;
  if (x.copies === 1 && y.copies === 1) return copy;
  const tile = {
    width: x.period,
    height: y.period,
    copy,
    starts: { x: startsOf(x), y: startsOf(y) },
  };
  let planes: Raster['planes'] | undefined;
  return {
    ...tile,
    get planes() {
      const [red, green, blue] = copy.planes;
      return (planes ??= [layPlane(red, tile), layPlane(green, tile), layPlane(blue, tile)]);
    },
  } satisfies LaidTile;
}

/**
 * Tell a tile that was laid of copies from one that was not.
 *
 * @param tile - Any tile.
 * @returns Whether {@link layCopies} made it.
 */
export function isLaid(tile: Raster): tile is LaidTile {
  return 'copy' in tile;
}

function startsOf({ copies, period }: CopiesPlan): number[] {
  return Array.from({ length: copies }, (_, i) => Math.round((i * period) / copies));
}

// Each copy over the end of the one before.
function layPlane(from: Float32Array, tile: Omit<LaidTile, 'planes'>): Float32Array {
  const { width, height, copy, starts } = tile;
  const plane = new Float32Array(width * height);
  for (let y = 0; y < Math.min(copy.height, height); y++) {
    for (const left of starts.x) {
      const run = from.subarray(
        y * copy.width,
        y * copy.width + Math.min(copy.width, width - left),
      );
      plane.set(run, y * width + left);
    }
  }
  // Rows of the first stand, all but those that the second lies over.
  const whole = plane.slice(0, Math.min(copy.height, height) * width);
  for (const top of starts.y) {
    plane.set(whole.subarray(0, (height - top) * width), top * width);
  }
  return plane;
}
