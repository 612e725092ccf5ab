import type { Size } from '../../units/parse-size.js';
import { px } from '../../units/units.js';
import type { CourseFit } from '../find-courses.js';
import type { Works } from './find-works.js';
import { chanceOfRight, spreadOfCourse } from '../joints/spread-of-course.js';

/**
 * Let a fit rest on one of a wall's two works alone, so that its course is never a mean of both.
 *
 * @param fit - Courses found, perhaps over both.
 * @param works - As told apart.
 * @param size - Of the picture.
 * @returns The courses of the measured one; the other is left out.
 */
export function keepOneWork(fit: CourseFit, works: Works, size: Size<number>): CourseFit {
  const { measured, other } = works;
  const { axis, found, repeat } = fit;
  const isOurs = (at: number): boolean => at >= measured.from - 0.5 && at <= measured.to + 0.5;
  const over = other.to - other.from;
  const leftOut =
    axis === 'y'
      ? { x: 0, y: other.from, width: size.width, height: over }
      : { x: other.from, y: 0, width: over, height: size.height };
  const joints = fit.joints.filter(isOurs);
  const beds = found.beds.filter(({ at }) => isOurs(at));
  const perpends = found.perpends.filter(({ from, to }) => isOurs(from) && isOurs(to));
  // What else is left out lies beside our joints; above and below them lies the other work.
  const beside = found.leftOut.filter((part) => {
    const [from, length] = axis === 'y' ? [part.y, part.height] : [part.x, part.width];
    return isOurs(from + length / 2);
  });
  const kept = { ...fit, found: { ...found, beds, perpends, leftOut: [...beside, leftOut] } };
  if (joints.length === fit.joints.length) return kept;
  const middle = (joints.length - 1) / 2;
  const mean = joints.reduce((sum, at) => sum + at, 0) / joints.length;
  const along = joints.reduce((sum, at, k) => sum + (k - middle) * (at - mean), 0);
  const course = along / joints.reduce((sum, _at, k) => sum + (k - middle) ** 2, 0);
  const datum = mean - middle * course;
  const spread = spreadOfCourse(Float64Array.from(joints)) / course;
  const before = chanceOfRight(fit.uncertainty, fit.joints.length);
  const parts = { ...fit.parts, fit: spread };
  const uncertainty = Math.hypot(parts.fit, parts.perspective, parts.lens);
  const period = repeat[axis];
  return {
    ...kept,
    course: px(course),
    courseOffset: datum - Math.floor(datum / course) * course,
    joints,
    parts,
    uncertainty,
    confidence: Math.min(1, fit.confidence / before) * chanceOfRight(uncertainty, joints.length),
    repeat: { ...repeat, [axis]: period === null ? null : px((period * course) / fit.course) },
  };
}
