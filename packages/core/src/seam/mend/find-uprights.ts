import type { PerpendLines } from '../extend/see-perpends.js';

/** After how much a bond comes round. */
export interface BondPeriod {
  /** Along its courses, in pixels. */
  readonly length: number;
  /** How many courses, whole. */
  readonly courses: number;
}

// So much of a joint must show at an upright one, and counts of what shows where the bond has it in
// other courses: beside a brick as dark as mortar a joint is faint.
const leastShown = 0.45;
const elsewhere = 0.3;
// Where nobody knows the bond.
const leastAlone = 0.35;
// Of two that lie nearer than this share of a brick the fainter is none; and by half of that one lies
// beside where others do.
const nearest = 0.2;
const reach = 0.03;

/**
 * Find the upright joints of every course.
 *
 * @param lines - Upright mortar, course by course.
 * @param brick - One brick with its joint, in pixels.
 * @param bond - How it is laid, or null where nobody knows.
 * @returns Course by course, the middle of each joint from left to right, in pixels.
 */
export function findUprights(
  lines: PerpendLines,
  brick: number,
  bond: BondPeriod | null,
): Float64Array[] {
  const apart = Math.max(2, nearest * brick);
  const folds = bond && foldAll(lines, bond, Math.round(reach * brick));
  const least = folds === null ? leastAlone : leastShown;
  return lines.courses.map((own, course) => {
    const fold = folds?.[course % folds.length];
    const line = fold ? own.map((shown, x) => shown + elsewhere * foldAt(fold, x, bond)) : own;
    const peaks: { readonly at: number; readonly shown: number }[] = [];
    for (let x = 1; x + 1 < line.length; x++) {
      const shown = line[x]!;
      if (shown < least || shown < line[x - 1]! || shown <= line[x + 1]!) continue;
      const last = peaks.at(-1);
      if (last === undefined || x - last.at >= apart) peaks.push({ at: x, shown });
      else if (shown > last.shown) peaks[peaks.length - 1] = { at: x, shown };
    }
    return Float64Array.from(peaks, ({ at }) => middleOf(line, at));
  });
}

function foldAt(fold: Float64Array, x: number, bond: BondPeriod | null): number {
  const place = bond === null ? 0 : ((x + 0.5) / bond.length) % 1;
  return fold[Math.min(fold.length - 1, Math.floor(place * fold.length))]!;
}

// Courses that are alike over one another, and repeats along them too; a joint as wide as those wander.
function foldAll({ courses }: PerpendLines, bond: BondPeriod, wander: number): Float64Array[] {
  const size = Math.max(1, Math.round(bond.length));
  return Array.from({ length: Math.min(bond.courses, courses.length) }, (_, row) => {
    const sums = new Float64Array(size);
    const counts = new Float64Array(size);
    for (let course = row; course < courses.length; course += bond.courses) {
      const line = courses[course]!;
      for (let x = 0; x < line.length; x++) {
        const place = Math.min(size - 1, Math.floor((((x + 0.5) / bond.length) % 1) * size));
        sums[place]! += line[x]!;
        counts[place]!++;
      }
    }
    const means = sums.map((sum, i) => sum / Math.max(1, counts[i]!));
    return means.map((_, x) => {
      let most = 0;
      for (let i = x - wander; i <= x + wander; i++) {
        most = Math.max(most, means[((i % size) + size) % size]!);
      }
      return Math.min(1, most);
    });
  });
}

// Centre of gravity of what stands out about a peak, down to half of it.
function middleOf(line: Float64Array, peak: number): number {
  const least = line[peak]! / 2;
  let [sum, moment] = [0, 0];
  for (const step of [1, -1]) {
    for (let x = step > 0 ? peak : peak - 1; (line[x] ?? 0) > least; x += step) {
      sum += line[x]! - least;
      moment += (line[x]! - least) * (x + 0.5);
    }
  }
  return sum > 0 ? moment / sum : peak + 0.5;
}
