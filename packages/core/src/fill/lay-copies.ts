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
      const lay = (plane: Float32Array): Float32Array =>
        layRuns(plane, new Float32Array(x.period * y.period), { tile, channels: 1 });
      const [red, green, blue] = copy.planes;
      return (planes ??= [lay(red), lay(green), lay(blue)]);
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

/** How samples of a picture lie. */
export interface RunsToLay {
  /** Where they go. */
  readonly tile: Omit<LaidTile, 'planes'>;
  /** Samples a pixel. */
  readonly channels: number;
}

/**
 * Lay samples of a copy where those of a tile go.
 *
 * @param from - Of the copy, row by row.
 * @param to - Of the tile; filled.
 * @param runs - How both lie.
 * @returns The same `to`.
 */
export function layRuns<Samples extends Float32Array | Uint8Array>(
  from: Samples,
  to: Samples,
  runs: RunsToLay,
): Samples {
  const { tile, channels } = runs;
  const { width, height, copy, starts } = tile;
  const [stride, length] = [channels * width, channels * copy.width];
  const ends = (list: readonly number[], all: number): readonly number[] => [...list.slice(1), all];
  const [rights, feet] = [ends(starts.x, width), ends(starts.y, height)];
  for (let y = 0; y < copy.height && y < height; y++) {
    for (const [i, left] of starts.x.entries()) {
      const run = from.subarray(y * length, y * length + channels * (rights[i]! - left));
      to.set(run, y * stride + channels * left);
    }
  }
  // Rows of the first stand: the others are the same.
  for (const [i, top] of starts.y.entries()) {
    to.copyWithin(top * stride, 0, (feet[i]! - top) * stride);
  }
  return to;
}
