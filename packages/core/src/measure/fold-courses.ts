import { cubeRoot } from '../colour/cube-root.js';
import type { Raster } from '../raster/raster.js';
import { correlate, toJointFilters } from './filter-stretch.js';
import type { View } from './fold-rows.js';
import type { CourseMask } from './mask-courses.js';
import type { PlacedJoints } from './place-joints.js';

/** How perpends are looked for. */
export interface PerpendLook {
  /** In which view of the picture. */
  readonly view: View;
  /** How much is looked at: a part about the middle, unless told, says as much as all of it. */
  readonly extent?: 'middle' | 'all';
  /** Where the courses show; everywhere unless told. */
  readonly mask?: CourseMask;
}

/** How much each place along each course looks like an upright line. */
export interface CourseBands {
  /** Courses, top down and without gap. */
  readonly courses: number;
  /** Samples along each. */
  readonly length: number;
  /** Columns of the picture that one sample stands for. */
  readonly step: number;
  /** Column of the picture at which they begin. */
  readonly left: number;
  /** `courses * length` numbers, a course after another: 1 a dark line the course's height, -1 a light one. */
  readonly line: Float32Array;
  /** The same places: 1 where the course shows, else 0. */
  readonly seen: Uint8Array;
}

const mostCourses = 16;
/** Courses' heights that a band is long. */
const longestBand = 48;
const slices = 4;

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
    const stride = Math.max(1, Math.floor((end - top) / 6));
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
 * Look along each course, between its bed joints, for lines that stand its whole height: perpends.
 *
 * @param raster - The picture.
 * @param placed - Its bed joints.
 * @param perpends - How they show.
 * @returns At most 16 courses from the middle of the picture, or all of them.
 */
export function foldCourses(
  raster: Raster,
  placed: PlacedJoints,
  perpends: PerpendLook,
): CourseBands {
  const { joints, course, slope } = placed;
  const isAll = perpends.extent === 'all';
  const courses = isAll ? joints.length - 1 : Math.min(mostCourses, joints.length - 1);
  const first = firstOf(courses, joints.length - 1, perpends.mask);
  const step = Math.max(1, 2 ** Math.floor(Math.log2(course / 14)));
  const longest = isAll ? raster.width : longestBand * course;
  const length = Math.floor(Math.min(raster.width, longest) / step);
  const left = Math.floor((raster.width - length * step) / 2);
  const taps = toJointFilters(Math.max(0.7, course / step / 14)).line;
  const line = new Float32Array(courses * length);
  const seen = new Uint8Array(courses * length).fill(1);
  const samples = new Float32Array(length);
  const response = new Float32Array(length);
  const power = new Float32Array(length);
  for (let k = 0; k < courses; k++) {
    const top = joints[first + k]!;
    const gap = joints[first + k + 1]! - top;
    const sums = line.subarray(k * length, (k + 1) * length);
    const shows = seen.subarray(k * length, (k + 1) * length);
    if (perpends.mask) {
      markSeen(perpends.mask, first + k, { left, step, width: raster.width }, shows);
    }
    power.fill(0);
    for (let s = 0; s < slices; s++) {
      // The middle two thirds, clear of the bed joints.
      const from = top + gap * (1 / 6 + (s * 2) / (3 * slices));
      foldSlice(
        raster,
        { from, to: from + (gap * 2) / (3 * slices), slope, step, left, view: perpends.view },
        samples,
      );
      correlate(samples, taps, response);
      for (let i = 0; i < length; i++) {
        sums[i] = sums[i]! + response[i]!;
        power[i] = power[i]! + response[i]! ** 2;
      }
    }
    const mean = meanSeen(power, shows);
    for (let i = 0; i < length; i++) {
      if (shows[i] === 0) sums[i] = 0;
      else sums[i] = sums[i]! / Math.sqrt(slices * (power[i]! + 0.5 * mean) + 1e-20);
    }
  }
  return { courses, length, step, left, line, seen };
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

interface Samples {
  readonly left: number;
  readonly step: number;
  readonly width: number;
}

function markSeen(mask: CourseMask, course: number, at: Samples, out: Uint8Array): void {
  const scale = mask.stretches / at.width;
  for (let i = 0; i < out.length; i++) {
    const stretch = Math.floor((at.left + (i + 0.5) * at.step) * scale);
    out[i] = mask.seen[course * mask.stretches + stretch]!;
  }
}

function meanSeen(values: Float32Array, seen: Uint8Array): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (seen[i] === 0) continue;
    sum += values[i]!;
    count++;
  }
  return sum / Math.max(1, count);
}
