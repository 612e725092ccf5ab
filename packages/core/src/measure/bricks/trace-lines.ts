import { cubeRoot } from '../../colour/cube-root.js';
import type { Raster } from '../../raster/raster.js';
import { correlate } from '../joints/correlate.js';
import { toJointFilters } from '../joints/to-joint-filters.js';
import type { View } from '../joints/fold-rows.js';
import type { CourseMask } from '../joints/mask-courses.js';
import type { PlacedJoints } from '../joints/place-joints.js';

/** How perpends are looked for. */
export interface PerpendLook {
  /** In which view of the picture. */
  readonly view: View;
  /** How much is looked at: a part about the middle, unless told, says as much as all of it. */
  readonly extent?: 'middle' | 'all';
  /** Where the courses show, which tells what part; everywhere unless told. */
  readonly mask?: CourseMask;
}

/** What a filter for upright lines answers along each course. */
export interface CourseLines {
  /** The first course, counted from the first joint. */
  readonly first: number;
  /** Courses, top down and without gap. */
  readonly courses: number;
  /** Samples along each. */
  readonly length: number;
  /** Columns of the picture that one sample stands for. */
  readonly step: number;
  /** Column of the picture at which they begin. */
  readonly left: number;
  /** Columns of the picture. */
  readonly width: number;
  /** `courses * length` sums over the slices of a course, a course after another: dark lines above 0. */
  readonly sums: Float32Array;
  /** The same places: sums of squares. */
  readonly power: Float32Array;
}

const mostCourses = 16;
/** Courses' heights that a band is long. */
const longestBand = 48;
/** A course is looked at in so many, one below the other. */
export const slices = 4;

// Lightness of one slice of a course, `step` columns at a time, along the fall of the joints.
function foldSlice(raster: Raster, slice: Slice, out: Float32Array): void {
  const { width, height } = raster;
  const [red, green, blue] = raster.planes;
  const { step, left } = slice;
  const warm = slice.view === 'warmth';
  for (let i = 0; i < out.length; i++) {
    const fall = slice.slope * (left + (i + 0.5) * step - width / 2);
    const top = Math.min(height - 1, Math.max(0, Math.round(slice.from + fall)));
    const end = Math.min(height, Math.max(top + 1, Math.round(slice.to + fall)));
    // Of a tall slice every few rows do: what matters is along the row.
    const stride = end - top < 12 ? 1 : Math.floor((end - top) / 6);
    let sum = 0;
    let blues = 0;
    let count = 0;
    for (let y = top; y < end; y += stride) {
      const from = y * width + left + i * step;
      for (let p = from; p < from + step; p++) {
        sum += warm ? red[p]! : 0.2126 * red[p]! + 0.7152 * green[p]! + 0.0722 * blue[p]!;
        blues += blue[p]!;
      }
      count += step;
    }
    out[i] = cubeRoot(sum / count);
    if (warm) out[i] = out[i]! - cubeRoot(blues / count);
  }
}

interface Slice {
  readonly from: number;
  readonly to: number;
  readonly slope: number;
  readonly step: number;
  readonly view: View;
  /** Column of the first sample. */
  readonly left: number;
}

/**
 * Look along each course, between its bed joints, for upright lines.
 *
 * @param raster - The picture.
 * @param placed - Its bed joints.
 * @param perpends - How they show.
 * @returns At most 16 courses from the middle of the picture, or all of them.
 */
export function traceLines(
  raster: Raster,
  placed: PlacedJoints,
  perpends: PerpendLook,
): CourseLines {
  const { joints, course, slope } = placed;
  const { view, mask } = perpends;
  const isAll = perpends.extent === 'all';
  const courses = isAll ? joints.length - 1 : Math.min(mostCourses, joints.length - 1);
  const first = firstOf(courses, joints.length - 1, mask);
  const step = Math.max(1, 2 ** Math.floor(Math.log2(course / 14)));
  const longest = isAll ? raster.width : longestBand * course;
  const length = Math.floor(Math.min(raster.width, longest) / step);
  const left = Math.floor((raster.width - length * step) / 2);
  const taps = toJointFilters(Math.max(0.7, course / step / 14)).line;
  const sums = new Float32Array(courses * length);
  const power = new Float32Array(courses * length);
  const samples = new Float32Array(length);
  const response = new Float32Array(length);
  for (let k = 0; k < courses; k++) {
    const top = joints[first + k]!;
    const gap = joints[first + k + 1]! - top;
    for (let s = 0; s < slices; s++) {
      // The middle two thirds, clear of the bed joints.
      const from = top + gap * (1 / 6 + (s * 2) / (3 * slices));
      const to = from + (gap * 2) / (3 * slices);
      foldSlice(raster, { from, to, slope, step, left, view }, samples);
      correlate(samples, taps, response);
      for (let i = 0, at = k * length; i < length; i++, at++) {
        sums[at] = sums[at]! + response[i]!;
        power[at] = power[at]! + response[i]! * response[i]!;
      }
    }
  }
  return { first, courses, length, step, left, width: raster.width, sums, power };
}

// The first of so many courses one below the other: those that show most, nearest the middle.
function firstOf(courses: number, all: number, mask?: CourseMask): number {
  const middle = Math.floor((all - courses) / 2);
  if (mask === undefined) return middle;
  const { stretches, seen } = mask;
  let best = middle;
  let most = -Infinity;
  for (let first = 0; first + courses <= all; first++) {
    let sum = 0;
    for (let i = first * stretches; i < (first + courses) * stretches; i++) sum += seen[i]!;
    // What lies far from the middle is seldom as sharp and level.
    sum *= 1 - (0.1 * Math.abs(first - middle)) / all;
    if (sum > most) [best, most] = [first, sum];
  }
  return best;
}
