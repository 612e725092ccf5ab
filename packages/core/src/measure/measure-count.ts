import { outOfRange } from '../errors/out-of-range.js';
import type { Outcome } from '../errors/outcome.js';
import type { Warning } from '../errors/warning.js';
import type { Raster } from '../raster/raster.js';
import type { FoundJoints } from '../surface/found-joints.js';
import { toLevelPoint } from '../surface/level-point.js';
import type {
  CourseAxis,
  Lattice,
  Measurement,
  Reference,
  UncertaintyPart,
} from '../surface/measurement.js';
import type { Point } from '../units/parse-point.js';
import { px } from '../units/units.js';
import { expandUncertainty } from './expand-uncertainty.js';
import { type CourseFit, findCourses, type FindCoursesOptions } from './find-courses.js';
import { type PictureSize, refuseOutside } from './refuse-outside.js';
import { slantPart } from './slant-part.js';
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

/** What {@link measureCount} may be told. */
export interface MeasureCountOptions extends FindCoursesOptions {
  /**
   * Degrees by which the photo may be off square, either way, where it shows no courses that tell;
   * 0, which is square for certain, unless told.
   */
  readonly slant?: number;
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

type Laid = CountedCourses & { readonly axis: CourseAxis };

function toCount({ width, height }: PictureSize, laid: Laid): Count {
  const { courses, span, axis } = laid;
  const side = axis === 'y' ? height : width;
  const [from, to] = span ? [span[0][axis], span[1][axis]] : [0, side];
  const distance = Math.abs(to - from);
  if (span === undefined && courses > side) {
    const name = axis === 'y' ? 'height' : 'width';
    const most = `a whole number from 1 to ${side}, the photo's ${name} in pixels,`;
    throw outOfRange(most, 'courses', courses);
  }
  if (span !== undefined && !(distance >= courses)) {
    const [a, b] = span;
    const ends = `${a.x},${a.y} ${b.x},${b.y}`;
    const way = axis === 'y' ? 'height' : 'width';
    throw outOfRange(`two points ${courses} px or more apart in ${way}`, 'span', ends);
  }
  const course = distance / courses;
  const mark = laid.markUncertainty ?? (span ? 1 : course / 10);
  if (!(mark >= 0)) {
    throw outOfRange('a number of pixels of 0 or more', 'markUncertainty', mark);
  }
  const uncertainty = (Math.SQRT2 * mark) / distance;
  return { course, top: Math.min(from, to), uncertainty };
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
 * @param raster - A photo.
 * @param counted - How many, of what, and where.
 * @param options - Which way courses lie, and how far the photo may be straightened.
 * @returns Millimetres per pixel, the same both ways, or why the points will not do.
 * @throws RangeError when `courses` is not a whole number of 1 or more, the photo or the part between
 *   the points is less than a pixel a course high, or `markUncertainty` is below 0.
 */
export function measureCount(
  raster: Raster,
  counted: CountedCourses,
  options: MeasureCountOptions = {},
): Outcome<MeasuredCount, 'outside-photo'> {
  const { courses, reference, span } = counted;
  checkCourses(courses);
  const refusal = refuseOutside(raster, span ?? []);
  if (refusal) return refusal;
  const found = findCourses(raster, options);
  const { axis = 'y', slant = 0 } = options;
  const { count, fit, shows, warnings } = holdAgainst(raster, { ...counted, axis }, found);
  const lattice = fit ? toLattice(fit) : bareLattice(axis, count);
  const mmPerPx = reference.size / lattice.course;
  const budget: UncertaintyPart[] = [
    { source: 'reference', percent: 100 * reference.uncertainty },
    ...(fit ? toBudget(count, fit) : byEye(raster, { ...counted, axis }, count, slant)),
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
      rectification: fit?.rectification ?? null,
      lattice,
      joints: fit?.found ?? null,
    },
  };
}

function checkCourses(courses: number): void {
  if (Number.isInteger(courses) && courses >= 1) return;
  throw outOfRange('a whole number of 1 or more', 'courses', courses);
}

// The finer of the two says how far the count may be out.
function toBudget(count: Count, fit: CourseFit): UncertaintyPart[] {
  return [
    fit.uncertainty < count.uncertainty
      ? { source: 'fit', percent: 100 * fit.parts.fit }
      : { source: 'marks', percent: 100 * count.uncertainty },
    { source: 'perspective', percent: 100 * fit.parts.perspective },
    { source: 'lens', percent: 100 * fit.parts.lens },
  ];
}

// Nothing in the picture bears it out.
function byEye(
  size: PictureSize,
  { span, axis }: Laid,
  count: Count,
  slant: number,
): UncertaintyPart[] {
  const [x, y] = [size.width / 2, size.height / 2];
  const whole =
    axis === 'y'
      ? { from: { x, y: 0 }, to: { x, y: 2 * y } }
      : { from: { x: 0, y }, to: { x: 2 * x, y } };
  const line = span ? { from: span[0], to: span[1] } : whole;
  return [
    { source: 'marks', percent: 100 * count.uncertainty },
    ...slantPart(size, [{ span: line, share: 1 }], slant),
  ];
}

interface Counted {
  readonly count: Count;
  readonly fit: CourseFit | null;
  // Which courses the picture shows, held against those that were counted.
  readonly shows: keyof typeof confidences;
  readonly warnings: readonly Warning[];
}

// The joints where they bear the count out, else a word of caution where others stand out. Points
// that were marked on a slanted wall are as far apart as they are once it is level.
function holdAgainst(raster: Raster, laid: Laid, found: Outcome<CourseFit, 'no-courses'>): Counted {
  const count = toCount(raster, laid);
  if (!found.ok) return { count, fit: null, shows: 'none', warnings: [] };
  const { value, warnings } = found;
  const { rectification } = value;
  const { span } = laid;
  const level =
    span === undefined || rectification === null
      ? count
      : toCount(raster, {
          ...laid,
          span: [
            toLevelPoint(rectification, raster, span[0]),
            toLevelPoint(rectification, raster, span[1]),
          ],
        });
  if (agrees(value, level)) return { count: level, fit: value, shows: 'same', warnings };
  const message = `the count makes a course ${count.course.toFixed(1)} px high, but the picture seems to show courses of ${value.course.toFixed(1)} px`;
  return { count, fit: null, shows: 'others', warnings: [{ code: 'caution', message }] };
}

function bareLattice(axis: CourseAxis, { course, top }: Count): Lattice {
  return {
    axis,
    course: px(course),
    courseOffset: top - Math.floor(top / course) * course,
    brick: null,
    repeat: { x: null, y: null },
    bond: null,
  };
}
