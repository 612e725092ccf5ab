import { createRaster, type Raster } from '../../raster/raster.js';
import { type Canvas, createCanvas } from './canvas.js';
import { chooseOrigin, type LaidPatch, pieceOf, type Spot } from './choose-origin.js';
import type { Random } from './create-random.js';
import { placePatch } from './place-patch.js';
import { type PatchSource, takePatch } from './take-patch.js';
import { countMarks, createTally } from './tally-marks.js';

/** A tile that is to be sewn of patches. */
export interface QuiltWish {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Courses in it, or null for a texture without. */
  readonly courses: number | null;
  /** A patch: columns and, without courses, rows, about. */
  readonly patch: { readonly width: number; readonly height: number };
  /** A joint's width in pixels; 0 without courses. */
  readonly joint: number;
}

// Share of a patch in which it is cut into its neighbour, each side of their border.
const overlap = 0.16;

/**
 * Sew a tile of patches, each cut into those around it: along its courses where it has any, row by
 * row. It goes on around its edges.
 *
 * @param sources - Photos of one scale, light and colour.
 * @param wish - How large, and of how large patches.
 * @param random - Decides.
 * @returns The tile; with courses, the middle of a bed joint is its top edge.
 */
export function quiltTile(
  sources: readonly PatchSource[],
  wish: QuiltWish,
  random: Random,
): Raster {
  const { width, height } = wish;
  const canvas = createCanvas(width, height);
  const rows = wish.courses ?? Math.max(2, Math.round(height / wish.patch.height));
  const columns = Math.max(2, Math.round(width / wish.patch.width));
  const laid: LaidPatch[] = [];
  const tally = createTally(canvas, sources);
  for (let row = 0; row < rows; row++) {
    // As bricks do, or borders of patches would make a grid.
    const start = Math.floor(random() * width);
    for (let column = 0; column < columns; column++) {
      const spot = spotOf(wish, { row, rows, column, columns, start });
      const origin = chooseOrigin({ canvas, sources, laid, tally, spot }, random);
      countMarks(tally, pieceOf(origin, spot));
      laid.push({ ...origin, toX: spot.place.x, toY: spot.place.y });
      placePatch(canvas, takePatch(sources[origin.source]!, origin, spot), spot.place);
    }
  }
  return toRaster(canvas);
}

interface Grid {
  readonly row: number;
  readonly rows: number;
  readonly column: number;
  readonly columns: number;
  readonly start: number;
}

function spotOf(wish: QuiltWish, { row, rows, column, columns, start }: Grid): Spot {
  const { width, height, courses, joint } = wish;
  const left = Math.round((column * width) / columns);
  const right = Math.round(((column + 1) * width) / columns);
  const exact = (row * height) / rows;
  const top = Math.round(exact);
  const bottom = Math.round(((row + 1) * height) / rows);
  const share = overlap * (right - left);
  const free = courses === null ? share : Math.min(1.6 * share, mostAcross(height / courses));
  const across = Math.max(2, Math.round(free));
  const down =
    courses === null ? Math.max(2, Math.round(overlap * (bottom - top))) : nearBed(joint);
  return {
    place: {
      x: start + left - across,
      y: top - down,
      across,
      down,
      meets: {
        left: column > 0,
        right: column + 1 === columns,
        top: row > 0,
        bottom: row + 1 === rows,
      },
    },
    width: right - left + 2 * across,
    height: bottom - top + 2 * down,
    course: courses === null ? null : height / rows,
    before: exact - (top - down),
  };
}

/**
 * Say how far along a course a run of it is cut into the next at most.
 *
 * @param course - Its height.
 * @returns Pixels, each side of their border.
 */
export function mostAcross(course: number): number {
  return 1.5 * course;
}

function nearBed(joint: number): number {
  return Math.max(2, Math.round(0.6 * joint));
}

function toRaster({ width, height, planes }: Canvas): Raster {
  const out = createRaster(width, height);
  for (const [channel, plane] of planes.entries()) {
    const to = out.planes[channel]!;
    for (let i = 0; i < to.length; i++) {
      const root = plane[i]!;
      to[i] = root > 0 ? root * root : 0;
    }
  }
  return out;
}
