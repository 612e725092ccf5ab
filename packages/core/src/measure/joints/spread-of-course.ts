// Student's t for 95.45 %, the level of k = 2, by degrees of freedom from 1.
const student = [13.97, 4.53, 3.31, 2.87, 2.65, 2.52, 2.43, 2.37, 2.32, 2.28] as const;

/**
 * Say how far the mean course height may be wrong, from how unevenly the joints lie. A joint that
 * was laid high is high all along, so only whole joints are independent; of few of them, the
 * scatter itself is hardly known, and the uncertainty is widened for that.
 *
 * @param joints - y of each joint, top down, 2 or more.
 * @returns Standard uncertainty of their spacing, so that twice it holds 95 % of truths; infinite
 *   for two joints.
 * @see JCGM 100:2008 (GUM), G.3 and table G.2
 */
export function spreadOfCourse(joints: Float64Array): number {
  return fitCourse(joints, [])?.uncertainty ?? Infinity;
}

/** A straight line through joints, or several of one slope. */
interface FittedCourse {
  /** From joint to joint. */
  readonly course: number;
  /** Standard uncertainty of that, so that twice it holds 95 % of truths. */
  readonly uncertainty: number;
  /** The part of most joints: where its line puts its first. */
  readonly longest: { readonly at: number; readonly joints: number };
}

/**
 * Fit one course height to joints that lie in several parts, each with a place of its own.
 *
 * @param joints - y of each joint, top down.
 * @param starts - The first joint of each part but the first, counted from 0, rising.
 * @returns By least squares; null where there are too few joints to say how sure it is.
 */
export function fitCourse(joints: Float64Array, starts: readonly number[]): FittedCourse | null {
  const ends = [...starts, joints.length];
  const free = joints.length - ends.length - 1;
  if (free < 1) return null;
  const parts = ends.map((to, i) => takePart(joints, i === 0 ? 0 : ends[i - 1]!, to));
  let spread = 0;
  let along = 0;
  for (const part of parts) {
    spread += part.spread;
    along += part.along;
  }
  const course = along / spread;
  let squares = 0;
  for (const part of parts) {
    squares += part.squares - 2 * course * part.along + course * course * part.spread;
  }
  const best = parts.reduce((most, part) => (part.joints > most.joints ? part : most));
  return {
    course,
    uncertainty: toFactor(free) * Math.sqrt(Math.max(0, squares) / (free * spread)),
    longest: { at: best.mean - (course * (best.joints - 1)) / 2, joints: best.joints },
  };
}

interface Part {
  readonly joints: number;
  readonly mean: number;
  readonly spread: number;
  readonly along: number;
  readonly squares: number;
}

function takePart(joints: Float64Array, from: number, to: number): Part {
  const middle = (from + to - 1) / 2;
  let mean = 0;
  for (let k = from; k < to; k++) mean += joints[k]! / (to - from);
  let [spread, along, squares] = [0, 0, 0];
  for (let k = from; k < to; k++) {
    spread += (k - middle) ** 2;
    along += (k - middle) * (joints[k]! - mean);
    squares += (joints[k]! - mean) ** 2;
  }
  return { joints: to - from, mean, spread, along, squares };
}

// Beyond the table, t comes down to 2 as 2.8 over the degrees of freedom, to 1 %.
function toFactor(free: number): number {
  return (student[free - 1] ?? 2 + 2.8 / free) / 2;
}

/** What counts as right, as a fraction of a course. */
const right = 0.01;

/**
 * Say how likely the mean course height is right within 1 %, if the joints are those of courses.
 *
 * @param uncertainty - From {@link spreadOfCourse}, as a fraction of the course.
 * @param joints - How many joints that was made from, 3 or more.
 * @returns 0 to 1.
 * @see D. L. Wallace, Bounds on normal approximations to Student's and the chi-square
 *   distributions, Annals of Mathematical Statistics 30 (1959); E. Page, Approximations to the
 *   cumulative normal function, Applied Statistics 26 (1977)
 */
export function chanceOfRight(uncertainty: number, joints: number): number {
  const free = joints - 2;
  if (!(uncertainty > 0)) return 1;
  const t = Math.min(40, (right * toFactor(free)) / uncertainty);
  const z = (t * (1 - 1 / (4 * free))) / Math.sqrt(1 + (t * t) / (2 * free));
  return Math.tanh(0.7988 * z * (1 + 0.04417 * z * z));
}
