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
  const n = joints.length;
  const free = n - 2;
  if (free < 1) return Infinity;
  const middle = (n - 1) / 2;
  let mean = 0;
  for (let k = 0; k < n; k++) mean += joints[k]! / n;
  let spread = 0;
  let along = 0;
  for (let k = 0; k < n; k++) {
    spread += (k - middle) ** 2;
    along += (k - middle) * (joints[k]! - mean);
  }
  let squares = 0;
  for (let k = 0; k < n; k++) {
    squares += (joints[k]! - mean - (along / spread) * (k - middle)) ** 2;
  }
  return toFactor(free) * Math.sqrt(squares / (free * spread));
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
