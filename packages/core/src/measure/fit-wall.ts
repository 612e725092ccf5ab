import { followLevel } from './follow-level.js';
import { lookLevel } from './look-level.js';
import { isSameLevel } from './is-same-level.js';
import { confidenceOf, type Part, type SeenWall, type SeeOptions } from './seen-wall.js';
import { fitStand } from './slant/fit-stand.js';
import type { Sight } from './slant/guess-stand.js';
import { judgeStand } from './slant/judge-stand.js';
import type { Stand } from './slant/lay-plane.js';
import { toBedPoints } from './to-bed-points.js';
import { toCamera } from './to-camera.js';

/** What is known of a wall beside its bed joints. */
export interface FitWallOptions extends SeeOptions {
  /** How it lies, and its perpends' directions, by a first look; or null. */
  readonly sight: Sight | null;
}

/**
 * Fit a wall to its bed joints, and follow them again in the picture that this makes level: joints
 * say more of a wall than directions do, and level they are followed further.
 *
 * @param part - Of the photo.
 * @param first - As first seen there.
 * @param options - What else is known.
 * @returns The wall, with how it lies.
 */
export function fitWall(part: Part, first: SeenWall, options: FitWallOptions): SeenWall {
  const { sight, straighten, enough } = options;
  const camera = toCamera(part.photo, options.focal);
  const begin = { focal: camera.focal, ahead: { u: 0, v: 0 } };
  let best = first;
  let from: Stand = sight?.stand ?? { slope: 0, across: 0, down: 0, ...begin };
  for (let round = 0; round < 4; round++) {
    const perpends = sight?.perpends ?? [];
    const fit = fitStand(toBedPoints(best), { ...camera, from, perpends });
    from = { ...fit.stand, ...begin };
    const rectification = judgeStand(fit, part.photo, straighten);
    if (isSameLevel(rectification, best.rectification, part)) return { ...best, fit };
    // Of a wall that is not sure yet, another course height may show better once it is level.
    const again = confidenceOf(best) < enough;
    const next = again
      ? lookLevel(part, rectification, enough)
      : followLevel(part, best, rectification);
    if (next === null || confidenceOf(next) < 0.5 * confidenceOf(best)) return { ...best, fit };
    best = { ...next, fit };
  }
  return best;
}
