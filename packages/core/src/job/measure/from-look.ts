import type { FoundJoints } from '../../surface/found-joints.js';
import type { Lattice, PerAxis, Rectification } from '../../surface/measurement.js';
import { px } from '../../units/units.js';

/** Where a picture that was looked at lies on the level picture. */
export interface Look extends PerAxis<number> {
  /** Its pixels per level pixel. */
  readonly factor: PerAxis<number>;
}

/**
 * Bring joints that were found in a picture to the level picture it was made of.
 *
 * @param lattice - In pixels of the one.
 * @param look - Where that lies.
 * @returns In pixels of the other.
 */
export function latticeFromLook(lattice: Lattice, look: Look): Lattice {
  const { axis, brick, repeat } = lattice;
  const { factor } = look;
  const across = axis === 'y' ? 'x' : 'y';
  const course = lattice.course / factor[axis];
  const at = lattice.courseOffset / factor[axis] + look[axis];
  return {
    ...lattice,
    course: px(course),
    courseOffset: at - Math.floor(at / course) * course,
    brick: brick && px(brick / factor[across]),
    repeat: { x: repeat.x && px(repeat.x / factor.x), y: repeat.y && px(repeat.y / factor.y) },
  };
}

/**
 * The same for a picture of them.
 *
 * @param joints - In pixels of the one.
 * @param look - Where that lies.
 * @param rectification - From the photo to the other.
 * @returns In pixels of the other.
 */
export function jointsFromLook(
  joints: FoundJoints,
  look: Look,
  rectification: Rectification,
): FoundJoints {
  const { axis } = joints;
  const across = axis === 'y' ? 'x' : 'y';
  const to = (value: number, along: 'x' | 'y'): number => value / look.factor[along] + look[along];
  return {
    ...joints,
    rectification,
    beds: joints.beds.map((bed) => ({ ...bed, at: to(bed.at, axis) })),
    perpends: joints.perpends.map((perpend) => ({
      ...perpend,
      at: to(perpend.at, across),
      from: to(perpend.from, axis),
      to: to(perpend.to, axis),
    })),
    leftOut: joints.leftOut.map((part) => ({
      ...part,
      x: to(part.x, 'x'),
      y: to(part.y, 'y'),
      width: part.width / look.factor.x,
      height: part.height / look.factor.y,
    })),
  };
}
