import type { CourseReference } from '../catalogue/find-course.js';
import type { Outcome } from '../errors/outcome.js';
import type { Raster } from '../raster/raster.js';
import type { FoundJoints } from '../surface/found-joints.js';
import type { Lattice, Measurement, UncertaintyPart } from '../surface/measurement.js';
import { expandUncertainty } from './expand-uncertainty.js';
import type { FindCoursesOptions } from './find-courses.js';
import { findOneWork } from './find-one-work.js';
import { toLattice } from './to-lattice.js';
import { warnOfFormat } from './warn-of-format.js';
import { weighBrick } from './weigh-brick.js';

/** A measurement made from courses, with the joints it rests on. */
export interface MeasuredCourses extends Measurement {
  /** As found, for a picture of them. */
  readonly joints: FoundJoints;
}

/**
 * Measure a picture by the courses it shows. Pixels are taken as square, so the courses give
 * millimetres per pixel both ways; bricks only check it.
 *
 * @param raster - A photo.
 * @param reference - How high one course really is.
 * @param options - Which way courses lie, and how far the photo may be straightened.
 * @returns Millimetres per pixel, or `no-courses` where the picture holds none.
 */
export function measureCourses(
  raster: Raster,
  reference: CourseReference,
  options: FindCoursesOptions = {},
): Outcome<MeasuredCourses, 'no-courses'> {
  const found = findOneWork(raster, options);
  if (!found.ok) return found;
  const { value: fit, warnings } = found;
  const { id, name, size, uncertainty, source } = reference;
  const lattice = nameFaces(toLattice(fit), reference);
  const shape = Math.hypot(fit.uncertainty, fit.aspect);
  const other = warnOfFormat(lattice, { reference, uncertainty: shape });
  // Of a photo that was left as it is, courses that fall to one side lie closer together than they
  // measure down the picture.
  const fall = fit.rectification === null ? Math.cos((fit.tilt * Math.PI) / 180) : 1;
  const mmPerPx = size / (fit.course * fall);
  const along = weighBrick(lattice, reference, fit.aspect);
  const [here, there] = [mmPerPx, mmPerPx * along.ratio];
  const budget: UncertaintyPart[] = [
    { source: 'reference', percent: 100 * uncertainty },
    { source: 'fit', percent: 100 * fit.parts.fit },
    { source: 'perspective', percent: 100 * Math.hypot(fit.parts.perspective, along.uncertainty) },
    { source: 'lens', percent: 100 * fit.parts.lens },
  ];
  return {
    ok: true,
    warnings: other ? [...warnings, other] : warnings,
    value: {
      method: 'courses',
      reference: { id, name, size, uncertainty, source },
      mmPerPx: fit.axis === 'y' ? { x: there, y: here } : { x: here, y: there },
      uncertaintyPercent: expandUncertainty(budget),
      budget,
      confidence: fit.confidence,
      rectification: fit.rectification,
      lattice,
      joints: fit.found,
    },
  };
}

const apart = (brick: number, expected: number): number => Math.abs(brick / expected - 1);

// Stretcher bond of short bricks and header bond have the same joints: the format tells them apart.
function nameFaces(lattice: Lattice, { brick, size }: CourseReference): Lattice {
  const { bond, course } = lattice;
  if (lattice.brick === null || brick === null || (bond !== 'header' && bond !== 'stretcher')) {
    return lattice;
  }
  const courses = lattice.brick / course;
  const header = brick.header === null ? Infinity : apart(courses, brick.header / size);
  return {
    ...lattice,
    bond: header < apart(courses, brick.stretcher / size) ? 'header' : 'stretcher',
  };
}
