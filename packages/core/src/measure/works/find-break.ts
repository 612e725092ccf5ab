/** Where joints stop lying at one distance and go on at another. */
export interface CourseBreak {
  /** The last joint of the first part, counted from 0; the course after it may be an odd one. */
  readonly at: number;
  /** Courses of the first part, px. */
  readonly before: number;
  /** Courses of the second, px. */
  readonly after: number;
}

/** A part of fewer courses may be an odd one or two. */
const leastCourses = 3;
/** Courses that differ by less are one work's, or what is left of perspective. */
const leastApart = 0.04;
/** Two straight lines must leave this share at most of what one bent line, perspective, leaves. */
const mostLeft = 0.25;
/** Deviation of joints from the two lines, as a fraction of a course, at most. */
const mostUneven = 0.05;

/**
 * Tell whether joints in a row are those of two works, one beside the other, each of its own course
 * height.
 *
 * @param joints - Places of joints, rising, none left out.
 * @returns Where the one work meets the other, or null where they are one work's.
 */
export function findBreak(joints: readonly number[]): CourseBreak | null {
  const last = joints.length - 1;
  let best: CourseBreak | null = null;
  let least = Infinity;
  for (let at = leastCourses; at < last - leastCourses; at++) {
    const above = fitLine(joints, 0, at);
    const below = fitLine(joints, at + 1, last);
    const squares = above.squares + below.squares;
    if (squares >= least) continue;
    least = squares;
    best = { at, before: above.course, after: below.course };
  }
  if (best === null) return null;
  const { before, after } = best;
  const deviation = Math.sqrt(least / joints.length) / Math.min(before, after);
  const isBent = least > mostLeft * squaresOfBent(joints);
  if (isBent || deviation > mostUneven) return null;
  return Math.abs(Math.log(after / before)) < leastApart ? null : best;
}

function fitLine(
  joints: readonly number[],
  from: number,
  to: number,
): { readonly course: number; readonly squares: number } {
  const { along, spread, squares } = takeMoments(joints, from, to);
  return { course: along / spread, squares: Math.max(0, squares - (along * along) / spread) };
}

// What is left of the places once a parabola is taken out: on even places its square term is
// orthogonal to the straight one.
function squaresOfBent(joints: readonly number[]): number {
  const last = joints.length - 1;
  const { mean, along, spread, squares } = takeMoments(joints, 0, last);
  const middle = last / 2;
  const level = spread / joints.length;
  let bent = 0;
  let bend = 0;
  for (let k = 0; k <= last; k++) {
    const term = (k - middle) ** 2 - level;
    bent += term * (joints[k]! - mean);
    bend += term * term;
  }
  return Math.max(0, squares - (along * along) / spread - (bent * bent) / bend);
}

function takeMoments(
  joints: readonly number[],
  from: number,
  to: number,
): {
  readonly mean: number;
  readonly along: number;
  readonly spread: number;
  readonly squares: number;
} {
  const middle = (from + to) / 2;
  let mean = 0;
  for (let k = from; k <= to; k++) mean += joints[k]! / (to - from + 1);
  let along = 0;
  let spread = 0;
  let squares = 0;
  for (let k = from; k <= to; k++) {
    along += (k - middle) * (joints[k]! - mean);
    spread += (k - middle) ** 2;
    squares += (joints[k]! - mean) ** 2;
  }
  return { mean, along, spread, squares };
}
