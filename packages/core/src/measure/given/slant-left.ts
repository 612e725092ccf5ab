import type { Point } from '../../units/parse-point.js';
import type { Size } from '../../units/parse-size.js';
import type { CourseFit, FindCoursesOptions } from '../find-courses.js';
import { slantPart } from './slant-part.js';
import { toDrift } from '../to-drift.js';
import { usualFocal } from '../usual-focal.js';

/** How a photo was looked at. */
export interface LookedAt extends Pick<FindCoursesOptions, 'straighten' | 'focal'> {
  /** Degrees by which it may be off square, either way; 0, which is square for certain, unless told. */
  readonly slant?: number;
}

/**
 * Say what a slant puts a scale out by that was left in the photo: as much as a photo may have that
 * was taken for square, and at least as much as its courses show by growing higher to one side.
 *
 * @param size - The photo.
 * @param fit - Courses found in it.
 * @param how - How they were looked for.
 * @returns Standard uncertainty (k = 1) in per cent; 0 where the photo was straightened.
 */
export function slantLeft(size: Size<number>, fit: CourseFit, how: LookedAt): number {
  const { straighten = 'full', slant = 0, focal = usualFocal(size) } = how;
  if (straighten === 'full' || slant === 0) return 0;
  const { joints, axis } = fit;
  const [first = 0, last = 0] = [joints[0], joints.at(-1)];
  const at = (along: number): Point =>
    axis === 'y' ? { x: size.width / 2, y: along } : { x: along, y: size.height / 2 };
  const drift = Math.abs(toDrift(fit));
  // A course is seen 1 / (1 - tan(slant) y / f) squared as high at y from the middle.
  const seen = (Math.atan((drift * focal.px) / (2 * (last - first))) * 180) / Math.PI;
  const span = { from: at(first), to: at(last) };
  const [part] = slantPart(size, [{ span, share: 1 }], { degrees: Math.max(slant, seen), focal });
  // Half of it lies to either side of the middle, anywhere alike: JCGM 100:2008 (GUM), 4.3.7.
  return Math.hypot(part?.percent ?? 0, (100 * drift) / 2 / Math.sqrt(3));
}
