import type { Shown } from './fold-rows.js';
import type { PlacedJoints } from './place-joints.js';

/** In which stretches across each course shows. */
export interface CourseMask {
  /** Stretches across the picture, all as wide. */
  readonly stretches: number;
  /** A row of stretches for each course, the one below the first joint first: 1 it shows, else 0. */
  readonly seen: Uint8Array;
}

/** A line this far from its joint's place is another line, as a fraction of a course. */
const off = 0.1;
/** A line this much weaker than the joints usually are is none. */
const faint = 0.25;
/** A course shows where its beds are met this well all round, of how well they usually are. */
const least = 0.75;

/**
 * Tell where the courses of a wall show: where the photo reaches, and their bed joints are not lost
 * behind a window, a pipe or growth.
 *
 * @param placed - Its bed joints.
 * @param size - The picture's, and what of it the photo shows.
 * @param size.width - In px.
 * @param size.shown - Rows of each column.
 * @returns For every course between two joints, where it shows.
 */
export function maskCourses(
  placed: PlacedJoints,
  { width, shown }: { readonly width: number; readonly shown: Shown },
): CourseMask {
  const { joints, slope, points } = placed;
  const count = joints.length;
  const stretches = Math.round(points.k.length / count);
  const met = toMet(placed, width);
  const sums = new Float64Array((count - 1) * stretches);
  for (let k = 0; k < count - 1; k++) {
    for (let s = 0; s < stretches; s++) {
      sums[k * stretches + s] = meanAround(met, { count, stretches, k, s });
    }
  }
  const sorted = sums.slice().sort();
  const usual = sorted[sorted.length >> 1] ?? 0;
  const seen = Uint8Array.from(sums, (sum) => (sum >= least * usual ? 1 : 0));
  for (let s = 0; s < stretches; s++) {
    const from = Math.floor((s * width) / stretches);
    const to = Math.ceil(((s + 1) * width) / stretches);
    let [top, end] = [0, Infinity];
    for (let x = from; x < to; x++) {
      top = Math.max(top, shown.from[x]!);
      end = Math.min(end, shown.to[x]!);
    }
    const fall = slope * ((from + to - width) / 2);
    for (let k = 0; k < count - 1; k++) {
      const inside = joints[k]! + fall >= top - 0.5 && joints[k + 1]! + fall <= end + 0.5;
      if (!inside) seen[k * stretches + s] = 0;
    }
  }
  return { stretches, seen };
}

// Whether each joint is met in each stretch; stretches count joints, from the left.
function toMet({ joints, course, slope, points }: PlacedJoints, width: number): Uint8Array {
  const { k, x, y, weight } = points;
  const strays = Float64Array.from(
    k,
    (joint, i) => y[i]! - joints[joint]! - slope * (x[i]! - width / 2),
  );
  // Joints may have been moved to the middle of their mortar since.
  const sorted = strays.slice().sort();
  const moved = sorted[sorted.length >> 1] ?? 0;
  const reach = Math.max(off * course, 0.7);
  return Uint8Array.from(strays, (stray, i) =>
    weight[i]! >= faint && Math.abs(stray - moved) <= reach ? 1 : 0,
  );
}

interface Place {
  readonly count: number;
  readonly stretches: number;
  readonly k: number;
  readonly s: number;
}

// Of the two beds of a course and the next above and below, here and to either side.
function meanAround(met: Uint8Array, { count, stretches, k, s }: Place): number {
  let sum = 0;
  let places = 0;
  for (let i = Math.max(0, s - 1); i <= Math.min(stretches - 1, s + 1); i++) {
    for (let j = Math.max(0, k - 1); j <= Math.min(count - 1, k + 2); j++) {
      const weight = j === k || j === k + 1 ? 2 : 1;
      sum += weight * met[i * count + j]!;
      places += weight;
    }
  }
  return sum / places;
}
