import type { CourseReference } from '../../catalogue/course-reference.js';
import type { OwnReference } from '../../catalogue/own-reference.js';
import type { Straighten } from '../../measure/slant/judge-stand.js';
import type { CourseAxis, Reference } from '../../surface/measurement.js';
import { outOfRange } from '../../errors/out-of-range.js';
import { lenses } from '../../measure/find-focal-length.js';
import { toKnownSpan } from '../../measure/given/known-span.js';
import type { KnownSpan } from '../../measure/given/measure-spans.js';
import type { Span } from '../../surface/span.js';
import type { Point } from '../../units/parse-point.js';
import type { Size } from '../../units/parse-size.js';
import type { StatedLength } from '../../units/parse-stated-length.js';
import type { RealMm } from '../../units/units.js';
import { givenCorners } from './given-corners.js';
import type { GivenReference, OtherReference } from '../../measure/given/given-reference.js';

/**
 * What is known of the real thing in a photo. With none of it, the surface file beside the photo
 * is used.
 */
export interface ReferenceOptions {
  /** What the courses are. */
  readonly course?: CourseReference;
  /** References beside the catalogue's, that courses could be as well; none unless told. */
  readonly references?: readonly OwnReference[];
  /**
   * How many were counted, over one of `spans` where given, else over the photo's height (with `axis` x, its width); needs
   * `course`.
   */
  readonly courses?: number;
  /** Which way courses are counted: `y` where they lie level (unless told), `x` where they stand upright. */
  readonly axis?: CourseAxis;
  /**
   * Four corners of a rectangle on the photo, in any order; need `rectangleSize`, or a course or spans
   * in its plane.
   */
  readonly corners?: readonly Point[];
  /** How large that rectangle really is. */
  readonly rectangleSize?: Size<RealMm>;
  /** How far the photo may be straightened; `full` unless told. */
  readonly straighten?: Straighten;
  /** Lines on the photo; each needs its own of `lengths`, or the one there is needs `courses`. */
  readonly spans?: readonly Span[];
  /** The real lengths of `spans`, in the same order. */
  readonly lengths?: readonly StatedLength[];
  /** A rolled section, over whose depth each of `spans` goes. */
  readonly section?: Reference;
  /** A brick, along whose face each of `spans` goes, without mortar. */
  readonly brick?: Reference;
  /**
   * From the camera to the wall at the photo's middle. Alone it gives an estimate; beside another
   * reference it only checks it.
   */
  readonly distance?: StatedLength;
  /** Focal length of a 35 mm camera that sees as much, where the photo does not say; with a reference. */
  readonly focal?: RealMm;
}

/**
 * Tell which one reference is given, and refuse options that name none or several, before any work.
 *
 * @param options - As the caller gave them.
 * @returns The way to measure.
 * @throws RangeError when something is missing, or two things are said at once.
 */
export function checkReference(options: ReferenceOptions): GivenReference {
  const { corners, rectangleSize } = options;
  const other = checkOthers(options);
  if (corners !== undefined) return givenCorners(corners, options, other);
  checkLie(other, options);
  checkFocal(other, options);
  if (rectangleSize === undefined) return other;
  const { width, height } = rectangleSize;
  throw outOfRange('the corners of that rectangle', 'rectangleSize', `${width} x ${height} mm`);
}

function checkOthers(options: ReferenceOptions): OtherReference {
  const { spans, lengths, section, brick } = options;
  checkOne(options);
  checkCount(options);
  if (lengths !== undefined) return { kind: 'spans', spans: pairSpans(spans ?? [], lengths) };
  if (section !== undefined) return overSpans('section', section, spans);
  if (brick !== undefined) return overSpans('brick', brick, spans);
  return ofCourses(options);
}

const inWords = {
  spans: 'a span of known length',
  section: 'a section',
  brick: 'a brick',
  distance: 'a distance alone',
} as const;

// Nothing but courses lies any way that has to be told, and shows how a photo is made level.
function checkLie({ kind }: OtherReference, options: ReferenceOptions): void {
  if (kind === 'kept' || kind === 'courses' || kind === 'count') return;
  const { axis, straighten } = options;
  const beside = `beside ${inWords[kind]}`;
  if (axis !== undefined) throw outOfRange(`no axis of courses ${beside}`, 'axis', axis);
  if (straighten === 'level' || straighten === 'none')
    throw outOfRange(`no word on straightening ${beside}`, 'straighten', straighten);
}

// Of two references nobody can say which is meant.
function checkOne({ course, lengths, section, brick }: ReferenceOptions): void {
  const given = [
    ['course', course && (course.id === 'own' ? course.name : course.id)],
    ['section', section?.name],
    ['brick', brick?.id],
    ['lengths', lengths && `${lengths.length} of them`],
  ].filter(([, value]) => value !== undefined);
  const [first, second] = given;
  if (first?.[0] === undefined || second === undefined) return;
  const beside =
    first[0] === 'lengths' || second[0] === 'lengths' ? 'span of known length' : second[0];
  throw outOfRange(`no ${first[0]} beside a ${beside}`, first[0], first[1]);
}

function ofCourses(options: ReferenceOptions): OtherReference {
  const { course, courses, spans, distance, focal = null } = options;
  if (spans !== undefined && courses === undefined) {
    throw outOfRange(
      'the real length of the span (or the courses counted on it)',
      'lengths',
      undefined,
    );
  }
  if (course === undefined) {
    return distance === undefined ? { kind: 'kept' } : { kind: 'distance', distance, focal };
  }
  if (courses === undefined) return { kind: 'courses', course };
  const [span = null, ...more] = spans ?? [];
  if (more.length > 0) {
    throw outOfRange('one span to count courses on', 'spans', `${more.length + 1} of them`);
  }
  return { kind: 'count', course, courses, span };
}

function overSpans(
  kind: 'section' | 'brick',
  reference: Reference,
  spans: readonly Span[] = [],
): OtherReference {
  if (spans.length === 0) {
    const what = kind === 'section' ? 'lies between' : 'ends at';
    throw outOfRange(`the two points that the ${kind} ${what}`, 'spans', undefined);
  }
  return { kind, reference, spans };
}

/**
 * Tell whether anything is known of the real thing.
 *
 * @param options - As the caller gave them.
 * @returns False where only what was kept beside the photo can help.
 */
export function namesReference(options: ReferenceOptions): boolean {
  return checkReference(options).kind !== 'kept';
}

function checkCount({ courses, course }: ReferenceOptions): void {
  if (courses === undefined) return;
  if (!(Number.isInteger(courses) && courses >= 1)) {
    throw outOfRange('a whole number of 1 or more', 'courses', courses);
  }
  if (course === undefined) throw outOfRange('what the counted courses are', 'course', course);
}

function checkFocal({ kind }: OtherReference, { focal }: ReferenceOptions): void {
  if (focal === undefined) return;
  if (kind === 'kept') {
    throw outOfRange('a reference that it goes with (a course, a distance)', 'focal', focal);
  }
  checkLens(focal);
}

/**
 * Refuse a focal length that no camera has.
 *
 * @param focal - Of a 35 mm camera that sees as much.
 * @throws RangeError when it is one.
 */
export function checkLens(focal: RealMm): void {
  const { shortest, longest } = lenses;
  if (!(focal >= shortest && focal <= longest)) {
    throw outOfRange(`a focal length from ${shortest} to ${longest} mm`, 'focal', focal);
  }
}

function pairSpans(spans: readonly Span[], lengths: readonly StatedLength[]): KnownSpan[] {
  if (spans.length === 0) {
    throw outOfRange('the two points that length lies between', 'spans', undefined);
  }
  if (spans.length !== lengths.length) {
    const wanted = `as many lengths as spans, which are ${spans.length},`;
    throw outOfRange(wanted, 'lengths', lengths.length);
  }
  return spans.map((span, i) => toKnownSpan(span, lengths[i]!));
}
