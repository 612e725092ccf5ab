import type { CourseReference } from '../../catalogue/course-reference.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Warning, WarningCode } from '../../errors/warning.js';
import {
  type MeasureCoursesOptions,
  type MeasuredCourses,
  measureCourses,
} from '../../measure/given/measure-courses.js';
import type { Raster } from '../../raster/raster.js';

// What courses show that were made level by a wrong focal length.
const doubts: ReadonlySet<WarningCode> = new Set([
  'uneven-scale',
  'irregular-courses',
  'bond-unknown',
  'likely-other-format',
]);

const passedOver = (source: string): Warning => ({
  code: 'caution',
  message: `the ${source} does not fit the courses, and is passed over: was the photo cropped, or taken with another lens?`,
});

/**
 * Measure a photo by its courses and a focal length, noted by its camera or told; where the courses
 * do not bear that out, without it. It may be wrong, and never bends a measurement.
 *
 * @param raster - The photo.
 * @param reference - What its courses are.
 * @param options - How they are looked for.
 * @returns The measurement, or why there is none.
 */
export function measureNoted(
  raster: Raster,
  reference: CourseReference,
  options: MeasureCoursesOptions,
): Outcome<MeasuredCourses, 'no-courses'> {
  const { focal, ...unnoted } = options;
  const noted = measureCourses(raster, reference, options);
  if (focal === undefined || countDoubts(noted) === 0) return noted;
  if (noted.ok && noted.value.rectification === null) return noted;
  const free = measureCourses(raster, reference, unnoted);
  if (!free.ok || countDoubts(free) >= countDoubts(noted)) return noted;
  return { ...free, warnings: [...free.warnings, passedOver(focal.source)] };
}

function countDoubts(outcome: Outcome<MeasuredCourses, 'no-courses'>): number {
  return outcome.ok ? outcome.warnings.filter(({ code }) => doubts.has(code)).length : Infinity;
}
