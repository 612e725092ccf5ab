import { cropRaster } from '../../raster/crop-raster.js';
import type { Raster } from '../../raster/raster.js';
import { transposeRaster } from '../../raster/transpose-raster.js';
import type { CourseAxis } from '../../surface/measurement.js';
import { bedAt, type Beds, placeBeds } from '../extend/place-beds.js';
import { seePerpends } from '../extend/see-perpends.js';
import { type BondPeriod, findUprights } from './find-uprights.js';
import { type Mortar, seeMortar } from './see-mortar.js';
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
  /** After how much its bond comes round; left out or null where nobody knows. */
  readonly bond?: BondPeriod | null;
}

/** The joints that a window on a picture shows, laid out as windows are: the mended axis along the rows. */
export interface SeenJoints {
  /** How like mortar each pixel is: about 0 brick, about 1 mortar. */
  readonly likeness: Float32Array;
  /** Where bed joints cross the window: column by column, each joint's row; null where they run along it. */
  readonly crossing: BedCrossings | null;
  /**
   * Row by row, the middles of joints that the row itself crosses, from left to right, in columns of
   * the window: upright ones where beds cross it, beds where they run along it.
   */
  readonly marks: readonly Float64Array[];
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
  const beds = placeBeds(mortar, courses);
  const marks = runsAlong ? bedsOver(beds, mortar.width) : uprightsOver(mortar, beds, joints);
  // Columns of the part seen are so many after the window's.
  const before = from - (first - margin);
  return {
    likeness: layOut(mortar, held, runsAlong),
    crossing: runsAlong ? null : follow(beds, held),
    marks: marks.map((places) => places.map((place) => place + before)),
  };
}

// At each column of the picture, where its beds lie: the mended axis runs down it.
function bedsOver(beds: Beds, width: number): Float64Array[] {
  return Array.from({ length: width }, (_, x) =>
    Float64Array.from({ length: beds.count }, (_, bed) => bedAt(beds, bed, x + 0.5)),
  );
}

// At each row of the picture, where the upright joints of its course lie.
function uprightsOver(mortar: Mortar, beds: Beds, joints: Joints): Float64Array[] {
  const { width, height } = mortar;
  const { course: high, brick, bond } = joints;
  const lines = seePerpends(mortar, beds);
  const uprights = findUprights(lines, brick ?? 2 * high, bond ?? null);
  const none = new Float64Array(0);
  let course = -1;
  return Array.from({ length: height }, (_, y) => {
    while (course + 1 < beds.count && bedAt(beds, course + 1, width / 2) <= y + 0.5) course++;
    return uprights[course] ?? none;
  });
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

function follow(beds: Beds, held: Int32Array): BedCrossings {
  const at = (bed: number, column: number): number => bedAt(beds, bed, held[column]! + 0.5);
  return { first: beds.first, count: beds.count, at };
}
