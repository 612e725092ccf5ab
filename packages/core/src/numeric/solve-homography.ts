import type { Point } from '../units/parse-point.js';
import type { Homography } from './homography.js';

/** A point, and where it goes. */
export interface PlacePair {
  /** Before. */
  readonly from: Point;
  /** After. */
  readonly to: Point;
}

/**
 * Find the homography that takes four points where they go.
 *
 * @param pairs - Four, of which no three lie in a line on either side.
 * @returns It, its last number 1.
 * @throws RangeError when there are not four, or they fix none.
 * @see R. Hartley and A. Zisserman, Multiple View Geometry in Computer Vision, 4.1 and 4.4: the direct
 *   linear transform, of points moved to about the origin and brought to about unit size
 */
export function solveHomography(pairs: readonly PlacePair[]): Homography {
  if (pairs.length !== 4) throw new RangeError(`expected 4 pairs of points, got ${pairs.length}`);
  const before = about(pairs.map(({ from }) => from));
  const after = about(pairs.map(({ to }) => to));
  const rows = pairs.flatMap(({ from, to }) => {
    const [x, y] = [(from.x - before.x) / before.size, (from.y - before.y) / before.size];
    const [u, v] = [(to.x - after.x) / after.size, (to.y - after.y) / after.size];
    return [
      [x, y, 1, 0, 0, 0, -x * u, -y * u, u],
      [0, 0, 0, x, y, 1, -x * v, -y * v, v],
    ];
  });
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0] = solve(rows);
  const determinant = a * (e - f * h) - b * (d - f * g) + c * (d * h - e * g);
  if (!(Math.abs(determinant) > least)) throw inLine();
  // Back to where the points lay: after * solution * before.
  const [p, q, r] = [g / before.size, h / before.size, 1];
  const w = r - p * before.x - q * before.y;
  const row = (m: number, n: number, o: number, middle: number): [number, number, number] => {
    const [s, t] = [(after.size * m) / before.size, (after.size * n) / before.size];
    const last = after.size * o - s * before.x - t * before.y;
    return [s + middle * p, t + middle * q, last + middle * w];
  };
  const [i, j, k] = row(a, b, c, after.x);
  const [l, m, n] = row(d, e, f, after.y);
  return [i / w, j / w, k / w, l / w, m / w, n / w, p / w, q / w, 1];
}

// Of numbers about 1, what is left of nothing by rounding.
const least = 1e-10;

function inLine(): RangeError {
  return new RangeError('expected four points that fix a homography, got three in a line');
}

function about(points: readonly Point[]): { x: number; y: number; size: number } {
  const x = points.reduce((sum, point) => sum + point.x, 0) / points.length;
  const y = points.reduce((sum, point) => sum + point.y, 0) / points.length;
  const far = points.reduce((sum, point) => sum + Math.hypot(point.x - x, point.y - y), 0);
  return { x, y, size: far / points.length || 1 };
}

// Gaussian elimination with the largest pivot; the right side is the last column.
function solve(rows: number[][]): number[] {
  const size = rows.length;
  for (let step = 0; step < size; step++) {
    const rest = rows.slice(step);
    const best = rest.reduce((a, b) => (Math.abs(b[step]!) > Math.abs(a[step]!) ? b : a));
    if (!(Math.abs(best[step]!) > least)) throw inLine();
    rows[rows.indexOf(best)] = rows[step]!;
    rows[step] = best;
    for (const row of rows) {
      if (row === best) continue;
      const times = row[step]! / best[step]!;
      for (let i = step; i <= size; i++) row[i]! -= times * best[i]!;
    }
  }
  return rows.map((row, i) => row[size]! / row[i]!);
}
