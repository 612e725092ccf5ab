import { followLevel } from './follow-level.js';
import { isSameLevel } from './is-same-level.js';
import type { FoundBond } from './bricks/place-perpends.js';
import type { PlacedJoints } from './joints/place-joints.js';
import { placePerpends } from './bricks/place-perpends.js';
import type { SeenWall, SeeOptions } from './seen-wall.js';
import { fitStand } from './slant/fit-stand.js';
import { judgeStand } from './slant/judge-stand.js';
import { toBedPoints } from './to-bed-points.js';
import { toPhotoUnits } from './to-photo-units.js';
import { toCamera } from './to-camera.js';

/** Bricks as they were laid. */
export interface LaidBricks {
  /** Their bed joints, at the middle of the mortar. */
  readonly placed: PlacedJoints;
  /** Their bond. */
  readonly bond: FoundBond;
}

/** So few perpends may lie as they do by chance. */
const fewest = 12;

/**
 * Fit a wall to its bed joints and its perpends together: bricks are as long at one end of a wall as
 * at the other, and at its foot as at its top, which courses alone tell less surely.
 *
 * @param seen - The wall, fitted to its bed joints.
 * @param laid - Its bricks, as found.
 * @param options - What else is known.
 * @returns The wall, followed again where this changes how it lies.
 */
export function heedBricks(seen: SeenWall, laid: LaidBricks, options: SeeOptions): SeenWall {
  const { part, fit } = seen;
  const { placed, bond } = laid;
  if (fit === null) return seen;
  const perpends = placePerpends({ ...seen, placed }, bond);
  if (perpends.length < fewest) return seen;
  const at = toPhotoUnits(
    seen,
    perpends.map(({ x }) => x),
    perpends.map(({ y }) => y),
  );
  const bricks = {
    ...at,
    n: Float64Array.from(perpends, ({ n }) => n),
    group: Int32Array.from(perpends, ({ group }) => group),
  };
  const camera = toCamera(part.photo, options.focal);
  const from = { ...fit.stand, focal: camera.focal, ahead: { u: 0, v: 0 } };
  const next = fitStand(toBedPoints(seen), { ...camera, from, perpends: [], bricks });
  const rectification = judgeStand(next, part.photo, options.straighten);
  if (isSameLevel(rectification, seen.rectification, part)) return { ...seen, fit: next };
  const again = followLevel(part, seen, rectification);
  return again === null ? seen : { ...again, fit: next };
}
