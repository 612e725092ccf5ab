import { cropRaster } from '../raster/crop-raster.js';
import type { Raster } from '../raster/raster.js';
import { transposeRaster } from '../raster/transpose-raster.js';
import type { CourseAxis } from '../surface/measurement.js';
import { bedAt, type Beds, placeBeds } from './extend/place-beds.js';
import { type Courses, type Mortar, seeMortar } from './extend/see-mortar.js';
import type { OverlapWindow } from './overlap.js';

/** Where the courses of a picture lie, in its pixels. */
export interface Joints {
  /** Which way courses are counted. */
  readonly axis: CourseAxis;
  /** Bed joint to bed joint. */
  readonly course: number;
  /** Where along `axis` one bed joint lies. */
  readonly offset: number;
  /** Across `axis`: one brick with its joint, or null where nobody knows. */
  readonly brick: number | null;
}

/** The joints that a window on a picture shows, laid out as windows are: the mended axis along the rows. */
export interface SeenJoints {
  /** How like mortar each pixel is: about 0 brick, about 1 mortar. */
  readonly likeness: Float32Array;
  /** Where bed joints cross the window: column by column, each joint's row; null where they run along it. */
  readonly crossing: BedCrossings | null;
}

/** Bed joints that cross a window from left to right. */
export interface BedCrossings {
  /** Number of the first, counted from the one at the courses' offset. */
  readonly first: number;
  /** How many. */
  readonly count: number;
  /** Row of a joint, counted from the first, at a column of the window. */
  readonly at: (bed: number, column: number) => number;
}

/**
 * See the joints in a window on a picture.
 *
 * @param raster - Level, in linear light; past its edge the edge is held.
 * @param window - Where it lies: its first column is `margin` before `first`.
 * @param joints - Of the picture.
 * @returns What is mortar in it, and where its beds lie.
 */
export function seeJoints(
  raster: Raster,
  window: OverlapWindow & { readonly first: number },
  joints: Joints,
): SeenJoints {
  const { axis, overlap, margin, first } = window;
  const size = overlap + 2 * margin;
  const length = axis === 'x' ? raster.width : raster.height;
  const from = Math.max(0, first - margin);
  const to = Math.min(length, first - margin + size);
  const part = cropRaster(
    raster,
    axis === 'x'
      ? { x: from, y: 0, width: to - from, height: raster.height }
      : { x: 0, y: from, width: raster.width, height: to - from },
  );
  const level = joints.axis === 'x' ? transposeRaster(part) : part;
  const runsAlong = joints.axis === axis;
  const courses = {
    course: joints.course,
    offset: runsAlong ? joints.offset - from : joints.offset,
  };
  const mortar = seeMortar(level, courses);
  const held = Int32Array.from(
    { length: size },
    (_, x) => Math.min(to - 1, Math.max(from, first - margin + x)) - from,
  );
  return {
    likeness: layOut(mortar, held, runsAlong),
    crossing: runsAlong ? null : follow(mortar, courses, held),
  };
}

function layOut(
  { likeness, width, height }: Mortar,
  held: Int32Array,
  runsAlong: boolean,
): Float32Array {
  // The step to the next sample along the mended axis, and across it.
  const [along, across] = runsAlong ? [width, 1] : [1, width];
  const rows = runsAlong ? width : height;
  const out = new Float32Array(held.length * rows);
  for (let y = 0, at = 0; y < rows; y++) {
    for (const x of held) out[at++] = likeness[x * along + y * across]!;
  }
  return out;
}

function follow(mortar: Mortar, courses: Courses, held: Int32Array): BedCrossings {
  const beds: Beds = placeBeds(mortar, courses);
  const at = (bed: number, column: number): number => bedAt(beds, bed, held[column]! + 0.5);
  return { first: beds.first, count: beds.count, at };
}
