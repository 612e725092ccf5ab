import type { Warning } from '../../errors/warning.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Joints } from './see-joints.js';
import { type JoinedAxis, originOf } from './origin-of.js';
import { seeOtherWork } from './see-other-work.js';
import type { SeenWall } from './see-wall.js';

// A seam of which less than this share, or a course, runs through other work does so by chance: stains, soot.
const leastShare = 0.2;
// Nor do lower courses.
const leastCourse = 10;

/**
 * Warn where a seam runs through what is no part of the courses: nobody can mend half a window.
 *
 * @param look - At the picture, in whole times fewer pixels.
 * @param ends - How its tile was joined, x first; null along an axis where nothing was.
 * @param joints - Where its courses lie.
 * @returns A warning for every such seam.
 */
export function warnOfOther(
  look: (times: number) => SeenWall,
  ends: PerAxis<JoinedAxis | null>,
  joints: Joints,
): Warning[] {
  if (joints.course < leastCourse) return [];
  const other = seeOtherWork(look, joints);
  return (['x', 'y'] as const).flatMap((axis) => {
    const end = ends[axis];
    if (end === null) return [];
    const { border, start, period } = end;
    let met = 0;
    for (const [line, place] of border.entries()) {
      const sides = [start + place, start + period + place - 1];
      // Along y lines are columns of the tile, which x was joined to before.
      const across =
        axis === 'x' ? line : Math.round(originOf({ ...ends, y: null }, line, start).x);
      if (sides.some((side) => (axis === 'x' ? other(side, across) : other(across, side)))) met++;
    }
    if (met < joints.course || met < leastShare * border.length) return [];
    const way = axis === 'x' ? 'side by side' : 'one above the other';
    const share = Math.round((100 * met) / border.length);
    const message = `${way} ${share} % of the seam runs through what is not of the courses (a window, a pipe, growth): crop the photo beside it`;
    return [{ code: 'other-work-cut', message }];
  });
}
