import { toLevelPoint } from '../../surface/level-point.js';
import type { Rectification } from '../../surface/measurement.js';
import type { StandFit } from './fit-stand.js';
import { layPlane, type Stand } from './lay-plane.js';
import type { Size } from '../../units/parse-size.js';

/** How far a photo may be straightened: wholly, only turned, or not at all. */
export type Straighten = 'full' | 'level' | 'none';

// Under so many pixels at the border, or deviations of its own, a slant is not worth a resampling:
// a photo that is level already would only lose by it.
const leastPixels = 0.75;
const leastDeviations = 3;

/**
 * Decide how a photo is to be straightened: only so far as what was found is more than chance.
 *
 * @param fit - How the wall lies.
 * @param size - The photo.
 * @param straighten - What the caller allows.
 * @returns From photo to level picture, or null where the photo is level as it is.
 */
export function judgeStand(
  fit: StandFit,
  size: Size<number>,
  straighten: Straighten,
): Rectification | null {
  if (straighten === 'none') return null;
  const full = toRectification(fit.stand, fit.lens, size);
  const turned = toRectification({ ...fit.stand, across: 0, down: 0 }, 0, size);
  const level = toRectification({ ...fit.stand, slope: 0, across: 0, down: 0 }, 0, size);
  const target = straighten === 'full' ? full : turned;
  if (!isApart(fit, { size, from: level, to: target })) return null;
  return isApart(fit, { size, from: turned, to: target }) ? target : turned;
}

/**
 * Write how a wall lies as the map that makes it level.
 *
 * @param stand - How it lies.
 * @param lens - Barrel distortion, as a share of half the diagonal.
 * @param size - The photo.
 * @returns From photo to level picture.
 */
export function toRectification(stand: Stand, lens: number, size: Size<number>): Rectification {
  return { matrix: layPlane(stand, size), lens };
}

interface Pair {
  readonly size: Size<number>;
  readonly from: Rectification;
  readonly to: Rectification;
}

// Whether two maps differ somewhere on the border by more than chance.
function isApart(fit: StandFit, { size, from, to }: Pair): boolean {
  const { width, height } = size;
  const moved = moveAll(fit, size);
  for (const x of [0, width / 2, width]) {
    for (const y of [0, height / 2, height]) {
      const point = { x, y };
      const [a, b] = [toLevelPoint(from, size, point), toLevelPoint(to, size, point)];
      const distance = Math.hypot(b.x - a.x, b.y - a.y);
      const deviation = deviationAt(moved, size, point);
      if (distance > Math.max(leastPixels, leastDeviations * deviation)) return true;
    }
  }
  return false;
}

interface Moved {
  readonly middle: Rectification;
  /** The map with one number moved by its step. */
  readonly each: readonly Rectification[];
  readonly covariance: Float64Array;
}

const step = 1e-5;

function moveAll({ stand, lens, covariance }: StandFit, size: Size<number>): Moved {
  const { slope, across, down } = stand;
  const each = [
    toRectification({ ...stand, slope: slope + step }, lens, size),
    toRectification({ ...stand, across: across + step }, lens, size),
    toRectification({ ...stand, down: down + step }, lens, size),
    toRectification(stand, lens + step, size),
  ];
  return { middle: toRectification(stand, lens, size), each, covariance };
}

// Deviation of where a point goes, by the law of propagation (GUM, equation 13).
function deviationAt(moved: Moved, size: Size<number>, point: { x: number; y: number }): number {
  const at = toLevelPoint(moved.middle, size, point);
  const slopes = moved.each.map((map) => {
    const there = toLevelPoint(map, size, point);
    return { x: (there.x - at.x) / step, y: (there.y - at.y) / step };
  });
  let variance = 0;
  for (const [i, p] of slopes.entries()) {
    for (const [j, q] of slopes.entries()) {
      variance += (p.x * q.x + p.y * q.y) * moved.covariance[4 * i + j]!;
    }
  }
  return Math.sqrt(Math.max(0, variance));
}
