import type { CourseReference } from '../../catalogue/course-reference.js';
import type { Lattice } from '../../surface/measurement.js';

/** How far a wall's bricks, with their joints, differ from their format's length (k = 1). */
const ofBrick = 0.008;
/** Bricks that differ by more deviations are of another format. */
const mostDeviations = 4;

/** Scale along the courses over that down them. */
export interface BrickAspect {
  /** 1 where pixels are square. */
  readonly ratio: number;
  /** Standard uncertainty (k = 1) of it, as a fraction. */
  readonly uncertainty: number;
}

/**
 * Let the bricks say how long a pixel is along the courses, where perspective leaves it open: their
 * length over the course's height is that of their format.
 *
 * @param lattice - Joints found, in pixels of the level picture.
 * @param reference - What the courses are.
 * @param aspect - Standard uncertainty (k = 1) of square pixels, as a fraction.
 * @returns Both weighed against each other.
 * @see JCGM 100:2008 (GUM), and its worked use for two references that agree: weights are the
 *   inverse squares of the uncertainties
 */
export function weighBrick(
  lattice: Lattice,
  reference: CourseReference,
  aspect: number,
): BrickAspect {
  const { brick, size } = reference;
  const square = { ratio: 1, uncertainty: aspect };
  const face = lattice.bond === 'header' ? brick?.header : brick?.stretcher;
  if (!(aspect > 0) || lattice.brick === null || lattice.bond === null || !face) return square;
  const told = face / size / (lattice.brick / lattice.course);
  if (Math.abs(told - 1) > mostDeviations * Math.hypot(aspect, ofBrick)) return square;
  const share = aspect ** 2 / (aspect ** 2 + ofBrick ** 2);
  return {
    ratio: 1 + share * (told - 1),
    uncertainty: (aspect * ofBrick) / Math.hypot(aspect, ofBrick),
  };
}
