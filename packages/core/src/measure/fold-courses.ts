import type { Raster } from '../raster/raster.js';
import { correlate, toJointFilters } from './filter-stretch.js';
import type { PlacedJoints } from './place-joints.js';

/** How much each place along each course looks like a perpend. */
export interface CourseBands {
  /** Courses, top down and without gap. */
  readonly courses: number;
  /** Samples along each. */
  readonly length: number;
  /** Columns of the picture that one sample stands for. */
  readonly step: number;
  /** `courses * length` numbers, a course after another: -1 to 1, 1 a line the course's height. */
  readonly line: Float32Array;
}

const mostCourses = 24;
const longestBand = 96;
const slices = 4;

// Lightness of one slice of a course, `step` columns at a time, along the fall of the joints.
function foldSlice(raster: Raster, slice: Slice, out: Float32Array): void {
  const { width, height } = raster;
  const [red, green, blue] = raster.planes;
  const { step, left } = slice;
  for (let i = 0; i < out.length; i++) {
    const fall = slice.slope * (left + (i + 0.5) * step - width / 2);
    const top = Math.min(height - 1, Math.max(0, Math.round(slice.from + fall)));
    const end = Math.min(height, Math.max(top + 1, Math.round(slice.to + fall)));
    // Of a tall slice every few rows do: what matters is along the row.
    const stride = Math.max(1, Math.floor((end - top) / 6));
    let sum = 0;
    let count = 0;
    for (let y = top; y < end; y += stride) {
      for (let p = y * width + left + i * step; p < y * width + left + (i + 1) * step; p++) {
        sum += 0.2126 * red[p]! + 0.7152 * green[p]! + 0.0722 * blue[p]!;
      }
      count += step;
    }
    out[i] = sum > 0 ? Math.cbrt(sum / count) : 0;
  }
}

interface Slice {
  readonly from: number;
  readonly to: number;
  readonly slope: number;
  readonly step: number;
  /** Column of the first sample. */
  readonly left: number;
}

/**
 * Look along each course, between its bed joints, for lines that stand its whole height: perpends.
 *
 * @param raster - The picture.
 * @param placed - Its bed joints.
 * @param look - Whether they are dark (1) or light (-1).
 * @returns At most 24 courses from the middle of the picture.
 */
export function foldCourses(raster: Raster, placed: PlacedJoints, look: 1 | -1): CourseBands {
  const { joints, course, slope } = placed;
  const courses = Math.min(mostCourses, joints.length - 1);
  const first = Math.floor((joints.length - 1 - courses) / 2);
  const step = Math.max(1, 2 ** Math.floor(Math.log2(course / 20)));
  const length = Math.floor(Math.min(raster.width, longestBand * course) / step);
  const left = Math.floor((raster.width - length * step) / 2);
  const taps = toJointFilters(Math.max(0.7, course / step / 14)).line.map((tap) => tap * look);
  const line = new Float32Array(courses * length);
  const samples = new Float32Array(length);
  const response = new Float32Array(length);
  const power = new Float32Array(length);
  for (let k = 0; k < courses; k++) {
    const top = joints[first + k]!;
    const gap = joints[first + k + 1]! - top;
    const sums = line.subarray(k * length, (k + 1) * length);
    power.fill(0);
    for (let s = 0; s < slices; s++) {
      // The middle two thirds, clear of the bed joints.
      const from = top + gap * (1 / 6 + (s * 2) / (3 * slices));
      foldSlice(raster, { from, to: from + (gap * 2) / (3 * slices), slope, step, left }, samples);
      correlate(samples, taps, response);
      for (let i = 0; i < length; i++) {
        sums[i] = sums[i]! + response[i]!;
        power[i] = power[i]! + response[i]! ** 2;
      }
    }
    const mean = power.reduce((sum, p) => sum + p, 0) / length;
    for (let i = 0; i < length; i++) {
      sums[i] = Math.max(0, sums[i]! / Math.sqrt(slices * (power[i]! + 0.5 * mean) + 1e-20));
    }
  }
  return { courses, length, step, line };
}
