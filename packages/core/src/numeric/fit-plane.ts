import { median } from './median.js';

/** Observations `z` at `(u, v)` with weights, all of one length. */
export interface PlanePoints {
  /** First abscissa. */
  readonly u: Float64Array;
  /** Second abscissa. */
  readonly v: Float64Array;
  /** What was observed. */
  readonly z: Float64Array;
  /** 0 or more; 0 leaves a point out. */
  readonly weight: Float64Array;
}

/** The plane `z = a + b u + c v`, and how well it lies. */
export interface Plane {
  /** Height at `u = v = 0`. */
  readonly a: number;
  /** Slope along `u`. */
  readonly b: number;
  /** Slope along `v`. */
  readonly c: number;
  /** Deviation of a point from the plane, robust (1.4826 times the median absolute residual). */
  readonly deviation: number;
  /** Weight of each point once outliers have been turned down. */
  readonly weight: Float64Array;
}

/** Once no point of the plane moves by more than this share of the deviation, it stays. */
const settled = 1e-4;

// Normal equations of three unknowns about the weighted mean, where they are best conditioned.
function solve(points: PlanePoints, weight: Float64Array): { a: number; b: number; c: number } {
  const { u, v, z } = points;
  const n = z.length;
  let s = 0;
  let mu = 0;
  let mv = 0;
  let mz = 0;
  for (let i = 0; i < n; i++) {
    const w = weight[i]!;
    s += w;
    mu += w * u[i]!;
    mv += w * v[i]!;
    mz += w * z[i]!;
  }
  if (!(s > 0)) return { a: 0, b: 0, c: 0 };
  mu /= s;
  mv /= s;
  mz /= s;
  let uu = 0;
  let uv = 0;
  let vv = 0;
  let uz = 0;
  let vz = 0;
  for (let i = 0; i < n; i++) {
    const w = weight[i]!;
    const du = u[i]! - mu;
    const dv = v[i]! - mv;
    const dz = z[i]! - mz;
    uu += w * du * du;
    uv += w * du * dv;
    vv += w * dv * dv;
    uz += w * du * dz;
    vz += w * dv * dz;
  }
  const det = uu * vv - uv * uv;
  const flat = !(det > 1e-9 * uu * vv);
  const b = flat ? (uu > 0 ? uz / uu : 0) : (uz * vv - vz * uv) / det;
  const c = flat ? 0 : (vz * uu - uz * uv) / det;
  return { a: mz - b * mu - c * mv, b, c };
}

// Tukey's biweight: far points lose all say; 4.685 deviations keep 95 % efficiency on clean ones.
function turnDown(residual: Float64Array, scale: number, given: Float64Array): Float64Array {
  const reach = 4.685 * scale;
  const weight = new Float64Array(given.length);
  for (let i = 0; i < weight.length; i++) {
    const t = Math.abs(residual[i]!) / reach;
    const kept = 1 - t * t;
    weight[i] = t < 1 ? given[i]! * kept * kept : 0;
  }
  return weight;
}

// Sizes of the residuals that count.
function sizesOf(residual: Float64Array, given: Float64Array): Float64Array {
  const sizes = new Float64Array(residual.length);
  let count = 0;
  for (let i = 0; i < residual.length; i++) {
    if (given[i]! > 0) sizes[count++] = Math.abs(residual[i]!);
  }
  return sizes.subarray(0, count);
}

/**
 * Fit a plane that a minority of stray points cannot pull away.
 *
 * @param points - Three or more, of one length.
 * @returns The plane; with fewer than two distinct `v`, `c` is 0.
 * @see P. W. Holland, R. E. Welsch, Robust regression using iteratively reweighted least-squares,
 *   Communications in Statistics A6 (1977)
 */
export function fitPlane(points: PlanePoints): Plane {
  const { u, v, z, weight: given } = points;
  const n = z.length;
  const residual = new Float64Array(n);
  let weight: Float64Array = given.slice();
  let plane = solve(points, weight);
  let deviation = 0;
  for (let round = 0; round < 12; round++) {
    let moved = 0;
    for (let i = 0; i < n; i++) {
      const here = z[i]! - plane.a - plane.b * u[i]! - plane.c * v[i]!;
      moved = Math.max(moved, Math.abs(here - residual[i]!));
      residual[i] = here;
    }
    if (round > 0 && moved < settled * deviation) break;
    deviation = 1.4826 * median(sizesOf(residual, given));
    if (!(deviation > 1e-12)) break;
    weight = turnDown(residual, deviation, given);
    plane = solve(points, weight);
  }
  return { ...plane, deviation, weight };
}
