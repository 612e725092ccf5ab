import type { Homography } from '../numeric/homography.js';
import { invertHomography } from '../numeric/invert-homography.js';
import { multiplyHomographies } from '../numeric/multiply-homographies.js';
import type { PerAxis, Rectification } from '../surface/measurement.js';
import type { Size } from '../units/parse-size.js';

/** From the pixels of a straightened picture to places in the photo. */
export interface PhotoMap {
  /** From new pixels to the photo as it would be without a lens. */
  readonly matrix: Homography;
  /** Middle of the photo, px. */
  readonly middle: PerAxis<number>;
  /** What the lens makes of a place, by the square of its distance from the middle; null without one. */
  readonly lens: LensTable | null;
}

/** How much nearer to the middle the lens brings a place. */
interface LensTable {
  // Entries to a square pixel of distance.
  readonly pitch: number;
  // Times the distance: entry i for the square distance i / pitch; one more than is looked up.
  readonly shrink: Float64Array;
}

/** What is to be made of the level picture. */
export interface LevelWindow {
  /** Left edge in level pixels. */
  readonly x: number;
  /** Top edge. */
  readonly y: number;
  /** New pixels per level pixel. */
  readonly factor: PerAxis<number>;
}

// Between so many entries a straight line is within a ten-thousandth of a pixel of the curve.
const entries = 4096;

/**
 * Prepare the way from new pixels back into the photo.
 *
 * @param size - The photo, in pixels.
 * @param rectification - How it is made level.
 * @param window - Where the new pixels lie on the level picture.
 * @returns What {@link mapPoints} goes by.
 */
export function photoMap(
  size: Size<number>,
  rectification: Rectification,
  window: LevelWindow,
): PhotoMap {
  const { x, y, factor } = window;
  const toLevel: Homography = [1 / factor.x, 0, x, 0, 1 / factor.y, y, 0, 0, 1];
  const { matrix, lens } = rectification;
  return {
    matrix: multiplyHomographies(invertHomography(matrix), toLevel),
    middle: { x: size.width / 2, y: size.height / 2 },
    lens: lens === 0 ? null : lensTable(lens, (size.width ** 2 + size.height ** 2) / 4),
  };
}

// The lens moves r to r (1 + bend r^2); Newton finds the way back, once for
// every entry.
function lensTable(lens: number, corner: number): LensTable {
  const bend = lens / corner;
  const last = corner * (1.1 + Math.max(0, lens)) ** 2;
  const pitch = entries / last;
  const shrink = new Float64Array(entries + 2).fill(1);
  let r = 0;
  for (let i = 1; i < shrink.length; i++) {
    const far = Math.sqrt(i / pitch);
    for (let step = 0; step < 8; step++) {
      r -= (r * (1 + bend * r * r) - far) / (1 + 3 * bend * r * r);
    }
    shrink[i] = r / far;
  }
  return { pitch, shrink };
}

/** Places in the photo, px. */
export interface Places {
  /** To the right. */
  readonly xs: Float64Array;
  /** Down. */
  readonly ys: Float64Array;
}

/** Points on a row of new pixels. */
export interface PointsOfRow {
  /** The first, in new pixels. */
  readonly u: number;
  /** The row. */
  readonly v: number;
  /** From one to the next. */
  readonly pitch: number;
}

/**
 * Find where points of a row of new pixels lie in the photo.
 *
 * @param map - The way there.
 * @param points - Which.
 * @param places - Filled from its beginning to its end.
 */
export function mapPoints(map: PhotoMap, points: PointsOfRow, places: Places): void {
  const [a, b, c, d, e, f, g, h, i] = map.matrix;
  const { u, v, pitch } = points;
  const { middle, lens } = map;
  const { xs, ys } = places;
  for (let k = 0; k < xs.length; k++) {
    const at = u + k * pitch;
    const w = g * at + h * v + i;
    const x = (a * at + b * v + c) / w;
    const y = (d * at + e * v + f) / w;
    const scale = lens === null ? 1 : shrinkAt(lens, x - middle.x, y - middle.y);
    xs[k] = lens === null ? x : middle.x + (x - middle.x) * scale;
    ys[k] = lens === null ? y : middle.y + (y - middle.y) * scale;
  }
}

function shrinkAt({ pitch, shrink }: LensTable, x: number, y: number): number {
  const place = Math.min((x * x + y * y) * pitch, shrink.length - 2);
  const entry = Math.floor(place);
  const near = shrink[entry]!;
  return near + (place - entry) * (shrink[entry + 1]! - near);
}
