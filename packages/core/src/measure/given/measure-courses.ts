import { type CourseReference, withoutUnit } from '../../catalogue/course-reference.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import type { Raster } from '../../raster/raster.js';
import type { FoundJoints } from '../../surface/found-joints.js';
import type { Measurement, UncertaintyPart } from '../../surface/measurement.js';
import { expandUncertainty } from './expand-uncertainty.js';
import type { FindCoursesOptions } from '../find-courses.js';
import { findOneWork } from '../works/find-one-work.js';
import { scaleCourses } from './scale-courses.js';
import { slantLeft } from './slant-left.js';

/** What {@link measureCourses} may be told. */
export interface MeasureCoursesOptions extends FindCoursesOptions {
  /**
   * Degrees by which a photo may be off square, either way, that is not wholly straightened; 0, which
   * is square for certain, unless told.
   */
  readonly slant?: number;
  /** References beside the catalogue's that the courses could be as well; none unless told. */
  readonly own?: readonly CourseReference[];
}

/** A brick format whose bricks lie the other way is seldom what was meant: as another format. */
const doubted = 0.3;

/** A measurement made from courses, with the joints it rests on. */
export interface MeasuredCourses extends Measurement {
  /** As found, for a picture of them. */
  readonly joints: FoundJoints;
  /** Standard uncertainty (k = 1) of square pixels, as a fraction, before bricks had a say in it. */
  readonly aspect: number;
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
  options: MeasureCoursesOptions = {},
): Outcome<MeasuredCourses, 'no-courses'> {
  const found = findOneWork(raster, options);
  if (!found.ok) return found;
  const { value: fit, warnings } = found;
  const left = slantLeft(raster, fit, options);
  const scale = scaleCourses(fit, reference, { left, own: options.own });
  const budget: UncertaintyPart[] = [
    { source: 'reference', percent: 100 * reference.uncertainty },
    { source: 'fit', percent: 100 * fit.parts.fit },
    ...scale.parts,
  ];
  return {
    ok: true,
    warnings: scale.doubt ? [...warnings, scale.doubt] : warnings,
    value: {
      method: 'courses',
      reference: withoutUnit(reference),
      mmPerPx: scale.mmPerPx,
      uncertaintyPercent: expandUncertainty(budget),
      budget,
      confidence: Math.min(
        fit.confidence,
        scale.mostConfidence,
        standsOnEnd(reference, warnings) ? doubted : 1,
      ),
      rectification: fit.rectification,
      lattice: scale.lattice,
      joints: fit.found,
      aspect: fit.aspect,
    },
  };
}

// Of a format, a brick is longer than its course is high; of bricks on end, it is not.
function standsOnEnd({ brick, size }: CourseReference, warnings: readonly Warning[]): boolean {
  const lies = brick !== null && brick.stretcher > size;
  return lies && warnings.some(({ code }) => code === 'other-axis');
}
