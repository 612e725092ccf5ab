import { localKernel, type LocalKernel } from './local-kernel.js';
import { mapPoints, type PhotoMap } from './photo-map.js';

/** What of the photo goes into new pixels near a place. */
export interface Footprint {
  /** Along the rows of the photo. */
  readonly across: LocalKernel;
  /** Down its columns. */
  readonly down: LocalKernel;
  /** Photo pixels to the right, for each one down, that the rows of the footprint are shifted by. */
  readonly slant: number;
}

/**
 * Find what of the photo goes into the new pixels about a place: a new pixel's square, seen in the
 * photo, is a slanting parallelogram, which is given by its height, its width and its slant. A
 * turn alone changes none of the three, as one of a round spot would not.
 *
 * @param map - From new pixels to the photo.
 * @param u - Of the place, in new pixels.
 * @param v - Of the place.
 * @returns Its kernels, and its slant.
 * @see P. Heckbert 1989, Fundamentals of texture mapping and image warping, 3.5: a warp's local
 *   affine part, and filters that follow it
 */
export function footprint(map: PhotoMap, u: number, v: number): Footprint {
  const places = { xs: new Float64Array(2), ys: new Float64Array(2) };
  const { xs, ys } = places;
  mapPoints(map, { u: u - 0.5, v, pitch: 1 }, places);
  const a = xs[1]! - xs[0]!;
  const c = ys[1]! - ys[0]!;
  mapPoints(map, { u, v: v - 0.5, pitch: 0 }, places);
  const [left, top] = [xs[0]!, ys[0]!];
  mapPoints(map, { u, v: v + 0.5, pitch: 0 }, places);
  const b = xs[0]! - left;
  const d = ys[0]! - top;
  // The linear map split into a triangular one and a turn: R Q, whose Q is left out.
  const height = Math.hypot(c, d);
  const width = Math.abs(a * d - b * c) / height;
  const slant = (a * c + b * d) / (height * height);
  // Enlarged, a pixel is a point, and a point has no slant.
  const part = Math.min(1, Math.max(0, 2 * (Math.max(height, width) - 1)));
  return { across: localKernel(width), down: localKernel(height), slant: slant * part };
}
