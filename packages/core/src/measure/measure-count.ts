import { outOfRange } from '../errors/out-of-range.js';
import type { Outcome } from '../errors/outcome.js';
import type { Warning } from '../errors/warning.js';
import type { Raster } from '../raster/raster.js';
import type { FoundJoints } from '../surface/found-joints.js';
import type { Lattice, Measurement, Reference, UncertaintyPart } from '../surface/measurement.js';
import type { Point } from '../units/parse-point.js';
import { px, type Px } from '../units/units.js';
import { expandUncertainty } from './expand-uncertainty.js';
import { type CourseFit, findCourses } from './find-courses.js';
import { refuseOutside } from './measure-span.js';
import { toLattice } from './to-lattice.js';

/** Courses that somebody counted. */
export interface CountedCourses {
  /** How many, a whole number of 1 or more. */
  readonly courses: number;
  /** How high one really is. */
  readonly reference: Reference;
  /** Two points that many courses apart, one above the other; the whole height unless told. */
  readonly span?: readonly [Point, Point];
  /**
   * Standard uncertainty (k = 1) of each end, px; 1 unless told for points that were marked, a
   * tenth of a course for the picture's own edges, which seldom lie on a joint.
   */
  readonly markUncertainty?: number;
}

/** A measurement made from counted courses. */
export interface MeasuredCount extends Measurement {
  /** The joints that bear the count out, or null where none were found or they do not. */
  readonly joints: FoundJoints | null;
}

interface Count {
  readonly course: number;
  readonly top: number;
  readonly uncertainty: number;
}

function toCount(height: number, counted: CountedCourses): Count {
  const { courses, span } = counted;
  const [from, to] = span ?? [
    { x: 0, y: 0 },
    { x: 0, y: height },
  ];
  const distance = Math.abs(to.y - from.y);
  if (span === undefined && courses > height) {
    const most = `a whole number from 1 to ${height}, the photo's height in pixels,`;
    throw outOfRange(most, 'courses', courses);
  }
  if (!(distance >= courses)) {
    const ends = `${from.x},${from.y} ${to.x},${to.y}`;
    throw outOfRange(`two points ${courses} px or more apart in height`, 'span', ends);
  }
  const course = distance / courses;
  const mark = counted.markUncertainty ?? (span ? 1 : course / 10);
  if (!(mark >= 0)) {
    throw outOfRange('a number of pixels of 0 or more', 'markUncertainty', mark);
  }
  const uncertainty = (Math.SQRT2 * mark) / distance;
  return { course, top: Math.min(from.y, to.y), uncertainty };
}

// People miscount, and mark the wrong joint: seldom where the picture shows the same courses, often
// where it shows others.
const confidences = { same: 0.99, none: 0.9, others: 0.3 } as const;

// What the program finds may sharpen a count, never overrule it.
function agrees(fit: CourseFit, count: Count): boolean {
  const apart = Math.abs(fit.course / count.course - 1);
  return apart <= 2 * Math.hypot(count.uncertainty, fit.uncertainty) + 0.002;
}

/**
 * Measure a picture by courses that somebody counted: over a span, or over its whole height. Where
 * the program finds the same courses, their joints give the finer figure and the lattice.
 *
 * @param raster - A level photo; courses lie along its rows.
 * @param counted - How many, of what, and where.
 * @returns Millimetres per pixel, the same both ways, or why the points will not do.
 * @throws RangeError when `courses` is not a whole number of 1 or more, the photo or the part between
 *   the points is less than a pixel a course high, or `markUncertainty` is below 0.
 */
export function measureCount(
  raster: Raster,
  counted: CountedCourses,
): Outcome<MeasuredCount, 'outside-photo'> {
  const { courses, reference, span } = counted;
  if (!(Number.isInteger(courses) && courses >= 1)) {
    throw outOfRange('a whole number of 1 or more', 'courses', courses);
  }
  const refusal = refuseOutside(raster, span ?? []);
  if (refusal) return refusal;
  const count = toCount(raster.height, counted);
  const { fit, shows, warnings } = findCounted(raster, count);
  const course = fit?.course ?? px(count.course);
  const lattice = fit ? toLattice(fit) : bareLattice(course, count.top);
  const mmPerPx = reference.size / course;
  const budget: UncertaintyPart[] = [
    { source: 'reference', percent: 100 * reference.uncertainty },
    fit && fit.uncertainty < count.uncertainty
      ? { source: 'fit', percent: 100 * fit.uncertainty }
      : { source: 'marks', percent: 100 * count.uncertainty },
  ];
  return {
    ok: true,
    warnings,
    value: {
      method: 'count',
      reference,
      mmPerPx: { x: mmPerPx, y: mmPerPx },
      uncertaintyPercent: expandUncertainty(budget),
      budget,
      confidence: confidences[shows],
      rectification: null,
      lattice,
      joints: fit?.found ?? null,
    },
  };
}

interface Counted {
  readonly fit: CourseFit | null;
  // Which courses the picture shows, held against those that were counted.
  readonly shows: keyof typeof confidences;
  readonly warnings: readonly Warning[];
}

// The joints where they bear the count out, else a word of caution where others stand out.
function findCounted(raster: Raster, count: Count): Counted {
  const found = findCourses(raster);
  if (!found.ok) return { fit: null, shows: 'none', warnings: [] };
  const { value, warnings } = found;
  if (agrees(value, count)) return { fit: value, shows: 'same', warnings };
  const message = `the count makes a course ${count.course.toFixed(1)} px high, but the picture seems to show courses of ${value.course.toFixed(1)} px`;
  return { fit: null, shows: 'others', warnings: [{ code: 'caution', message }] };
}

function bareLattice(course: Px, top: number): Lattice {
  return {
    axis: 'y',
    course,
    courseOffset: top - Math.floor(top / course) * course,
    brick: null,
    repeat: { x: null, y: null },
    bond: null,
  };
}
