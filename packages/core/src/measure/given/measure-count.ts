import { type CourseReference, withoutUnit } from '../../catalogue/course-reference.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import type { Raster } from '../../raster/raster.js';
import type { FoundJoints } from '../../surface/found-joints.js';
import { toLevelPoint } from '../../surface/level-point.js';
import type {
  CourseAxis,
  Lattice,
  Measurement,
  UncertaintyPart,
} from '../../surface/measurement.js';
import type { Point } from '../../units/parse-point.js';
import { px } from '../../units/units.js';
import { expandUncertainty } from './expand-uncertainty.js';
import { type CourseFit, findCourses, type FindCoursesOptions } from '../find-courses.js';
import type { SpansRefusal } from './measure-spans.js';
import { refuseOutside } from './refuse-outside.js';
import { refuseShort } from './refuse-short.js';
import { type CoursesScale, scaleCourses } from './scale-courses.js';
import { slantLeft } from './slant-left.js';
import { type Slant, slantPart } from './slant-part.js';
import type { Size } from '../../units/parse-size.js';

/** Courses that somebody counted. */
export interface CountedCourses {
  /** How many, a whole number of 1 or more. */
  readonly courses: number;
  /** How high one really is, and what lies along it. */
  readonly reference: CourseReference;
  /**
   * Two points that many courses apart, one above the other; the whole height, at the photo's
   * middle, unless told.
   */
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
   * Degrees by which the photo may be off square, either way, where it shows no courses that tell, or
   * is not wholly straightened; 0, which is square for certain, unless told.
   */
  readonly slant?: number;
  /** References beside the catalogue's that the courses could be as well; none unless told. */
  readonly own?: readonly CourseReference[];
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

type Line = readonly [Point, Point];

// What the courses were counted on: the photo's middle line unless told.
function toLine({ width, height }: Size<number>, { courses, span, axis }: Laid): Line {
  const [side, name] = axis === 'y' ? [height, 'height'] : [width, 'width'];
  if (span === undefined) {
    if (courses <= side) return middleLine({ width, height }, axis);
    const most = `a whole number from 1 to ${side}, the photo's ${name} in pixels,`;
    throw outOfRange(most, 'courses', courses);
  }
  const [a, b] = span;
  if (Math.abs(b[axis] - a[axis]) >= courses) return span;
  const ends = `${a.x},${a.y} ${b.x},${b.y}`;
  throw outOfRange(`two points ${courses} px or more apart in ${name}`, 'span', ends);
}

function middleLine({ width, height }: Size<number>, axis: CourseAxis): Line {
  const [x, y] = [width / 2, height / 2];
  return axis === 'y'
    ? [
        { x, y: 0 },
        { x, y: height },
      ]
    : [
        { x: 0, y },
        { x: width, y },
      ];
}

function toCount([a, b]: Line, { courses, span, axis, markUncertainty }: Laid): Count {
  const distance = Math.abs(b[axis] - a[axis]);
  const course = distance / courses;
  const mark = markUncertainty ?? (span ? 1 : course / 10);
  return {
    course,
    top: Math.min(a[axis], b[axis]),
    uncertainty: (Math.SQRT2 * mark) / distance,
  };
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
): Outcome<MeasuredCount, SpansRefusal> {
  return weighCount(raster, counted, { ...options, look: () => findCourses(raster, options) });
}

/** What {@link weighCount} may be told. */
export interface WeighCountOptions extends MeasureCountOptions {
  /** Tells which courses the picture shows, looked for with the other options. */
  readonly look: () => Outcome<CourseFit, 'no-courses'>;
}

/**
 * The same, of a picture that somebody else looked at.
 *
 * @param size - The picture.
 * @param counted - How many, of what, and where.
 * @param options - As {@link measureCount} is told, and the courses that it would find.
 * @returns As {@link measureCount} does.
 * @throws RangeError as {@link measureCount} does.
 */
export function weighCount(
  size: Size<number>,
  counted: CountedCourses,
  options: WeighCountOptions,
): Outcome<MeasuredCount, SpansRefusal> {
  const { courses, reference, span, markUncertainty } = counted;
  checkCount(courses, markUncertainty);
  const refusal = refuseOutside(size, span ?? []);
  if (refusal) return refusal;
  const { axis = 'y', slant: degrees = 0, focal } = options;
  const laid = { ...counted, axis };
  const line = toLine(size, laid);
  const held = holdAgainst(size, { ...laid, line }, options.look());
  const { uncertainty } = reference;
  const { fit, shows, warnings } = held;
  const short = refuseShort(uncertaintyOf(held));
  if (short) return short;
  const result =
    fit === null
      ? byEye(size, { ...laid, line, slant: { degrees, focal } }, held.count)
      : byJoints(
          held.count,
          fit,
          scaleCourses(fit, reference, { left: slantLeft(size, fit, options), own: options.own }),
        );
  const budget: UncertaintyPart[] = [
    { source: 'reference', percent: 100 * uncertainty },
    ...result.parts,
  ];
  return {
    ok: true,
    warnings: [...warnings, ...result.doubts],
    value: {
      method: 'count',
      reference: withoutUnit(reference),
      mmPerPx: result.mmPerPx,
      uncertaintyPercent: expandUncertainty(budget),
      budget,
      confidence: Math.min(confidences[shows], result.mostConfidence),
      rectification: fit?.rectification ?? null,
      lattice: result.lattice,
      joints: fit?.found ?? null,
    },
  };
}

interface Result extends Omit<CoursesScale, 'doubt'> {
  readonly doubts: readonly Warning[];
}

function byJoints(count: Count, fit: CourseFit, { doubt, ...scale }: CoursesScale): Result {
  const parts = [finer(count, fit), ...scale.parts];
  return { ...scale, parts, doubts: doubt ? [doubt] : [] };
}

// Nothing in the picture bears it out.
function byEye(
  size: Size<number>,
  { line: [from, to], axis, slant, reference }: Laid & Counting,
  count: Count,
): Result {
  const mmPerPx = reference.size / count.course;
  return {
    mmPerPx: { x: mmPerPx, y: mmPerPx },
    parts: [byMarks(count), ...slantPart(size, [{ span: { from, to }, share: 1 }], slant)],
    lattice: bareLattice(axis, count),
    doubts: [],
    mostConfidence: 1,
  };
}

interface Counting {
  readonly line: Line;
  readonly slant: Slant;
}

function checkCount(courses: number, mark = 0): void {
  if (!(Number.isInteger(courses) && courses >= 1)) {
    throw outOfRange('a whole number of 1 or more', 'courses', courses);
  }
  if (!(mark >= 0)) throw outOfRange('a number of pixels of 0 or more', 'markUncertainty', mark);
}

const uncertaintyOf = ({ count, fit }: Counted): number =>
  Math.min(count.uncertainty, fit?.uncertainty ?? Infinity);

const byMarks = ({ uncertainty }: Count): UncertaintyPart => ({
  source: 'marks',
  percent: 100 * uncertainty,
});

// The finer of the two says how far the count may be out.
function finer(count: Count, fit: CourseFit): UncertaintyPart {
  return fit.uncertainty < count.uncertainty
    ? { source: 'fit', percent: 100 * fit.parts.fit }
    : byMarks(count);
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
function holdAgainst(
  size: Size<number>,
  laid: Laid & { readonly line: Line },
  found: Outcome<CourseFit, 'no-courses'>,
): Counted {
  const count = toCount(laid.line, laid);
  if (!found.ok) return { count, fit: null, shows: 'none', warnings: [] };
  const { value, warnings } = found;
  const { rectification } = value;
  const toLevel = (at: Point): Point =>
    rectification === null ? at : toLevelPoint(rectification, size, at);
  const [from, to] = laid.line;
  const level = toCount([toLevel(from), toLevel(to)], laid);
  if (agrees(value, level)) return { count: level, fit: value, shows: 'same', warnings };
  const across = laid.axis === 'y' ? 'high' : 'wide';
  const message = `the count makes a course ${level.course.toFixed(1)} px ${across}, but the picture seems to show courses of ${value.course.toFixed(1)} px`;
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
