import type { Lattice } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { px } from '../../units/units.js';

// Joints wander, so a photo's courses are measured off by this much at most, as a fraction, and
// all of them together by a quarter of one. Past that it holds no whole number of them.
const mostOff = 0.015;
const mostAstray = 0.25;

/**
 * Put courses right by the photo's own wrap: where its top meets its bottom (where courses stand
 * upright, one side the other), a photo holds a whole number of courses exactly, which says more than
 * joints that wander inside it.
 *
 * @param lattice - As found in a level photo that meets itself along the axis of its courses.
 * @param photo - Its size in pixels.
 * @returns Courses to match; unchanged where the photo is no whole number of them.
 */
export function trustWrap(lattice: Lattice, photo: Size<number>): Lattice {
  const { axis, course, courseOffset, repeat } = lattice;
  const held = (axis === 'x' ? photo.width : photo.height) / course;
  const whole = Math.round(held);
  const off = held / whole;
  if (!(Math.abs(off - 1) <= mostOff && Math.abs(held - whole) <= mostAstray)) return lattice;
  return {
    ...lattice,
    course: px(course * off),
    courseOffset: courseOffset % (course * off),
    repeat: { ...repeat, [axis]: repeat[axis] && px(repeat[axis] * off) },
  };
}
