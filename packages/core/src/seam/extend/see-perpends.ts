import { bedAt, type Beds } from './place-beds.js';
import type { Mortar } from '../mend/see-mortar.js';

/** How much upright mortar each course shows, column by column. */
export interface PerpendLines {
  /** Columns. */
  readonly width: number;
  /** Course by course, from the first bed down: 0 brick or anything wide, 1 a joint. */
  readonly courses: readonly Float64Array[];
}

// Shares of a course between which perpends are looked at: clear of its bed joints.
const from = 0.24;
const to = 0.76;

/**
 * Look for upright joints in every whole course.
 *
 * @param mortar - What in the picture is mortar.
 * @param beds - Where its bed joints lie.
 * @returns How like a joint each column of each course is, beside what lies left and right of it.
 */
export function seePerpends(mortar: Mortar, beds: Beds): PerpendLines {
  const { width } = mortar;
  const courses = Array.from({ length: Math.max(0, beds.count - 1) }, (_, course) =>
    toRidge(meanDown(mortar, beds, course), mortar.joint),
  );
  return { width, courses };
}

function meanDown({ width, height, likeness }: Mortar, beds: Beds, course: number): Float64Array {
  const line = new Float64Array(width);
  for (let x = 0; x < width; x++) {
    const top = bedAt(beds, course, x + 0.5);
    const high = bedAt(beds, course + 1, x + 0.5) - top;
    const first = Math.max(0, Math.round(top + from * high));
    const last = Math.min(height, Math.max(first + 1, Math.round(top + to * high)));
    let sum = 0;
    for (let y = first, at = first * width + x; y < last; y++, at += width) sum += likeness[at]!;
    line[x] = sum / Math.max(1, last - first);
  }
  return line;
}

// What is as wide as a joint stands out; a pale brick does not.
function toRidge(line: Float64Array, joint: number): Float64Array {
  const half = Math.max(1, Math.round(joint / 2));
  const sums = new Float64Array(line.length + 1);
  for (let i = 0; i < line.length; i++) sums[i + 1] = sums[i]! + line[i]!;
  const mean = (start: number, end: number): number => {
    const a = Math.min(line.length, Math.max(0, start));
    const b = Math.min(line.length, Math.max(0, end));
    return b > a ? (sums[b]! - sums[a]!) / (b - a) : 0;
  };
  return line.map((_, x) => {
    const left = mean(x - 4 * half, x - half - 1);
    const right = mean(x + half + 2, x + 4 * half + 1);
    return Math.min(1, Math.max(0, mean(x - half + 1, x + half) - Math.max(left, right)));
  });
}
