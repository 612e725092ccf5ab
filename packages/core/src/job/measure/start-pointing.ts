import type { CourseReference } from '../../catalogue/course-reference.js';
import type { PointedPhoto, PointedStart } from '../../measure/given/pointed-photo.js';
import type { CourseAxis } from '../../surface/measurement.js';
import type { Span } from '../../surface/span.js';
import type { StatedLength } from '../../units/parse-stated-length.js';
import type { Size } from '../../units/parse-size.js';
import type { ReferenceOptions } from './reference-options.js';

/** What was seen of a photo. */
export interface SeenOfPhoto extends Pick<PointedPhoto, 'look'> {
  /** Whether courses were found in it as it lies. */
  readonly found: boolean;
}

/** So many courses are counted to begin with. */
const usualCount = 8;

/**
 * Say what a page that is pointed at begins with: what was given, as it would be typed, and for the rest
 * places and counts that are worth moving from.
 *
 * @param size - The photo, upright.
 * @param options - What was given.
 * @param seen - What the photo shows.
 * @returns What to begin with.
 */
export function startPointing(
  size: Size<number>,
  options: ReferenceOptions,
  seen: SeenOfPhoto,
): PointedStart {
  const { corners, spans, lengths, courses, axis = 'y' } = options;
  const whole = courses !== undefined && spans === undefined;
  const counted = courses === undefined ? countFound(size, options, seen) : null;
  const given = spans ?? [
    whole ? along(size, axis, 0) : (counted?.span ?? along(size, axis, 0.25)),
  ];
  return {
    way: wayOf(options, seen.found),
    lines: given.map((span, i) => ({ span, length: stateLength(lengths?.[i]) })),
    corners: corners ?? aboutMiddle(size),
    courses: String(courses ?? counted?.courses ?? usualCount),
    whole,
    ...inWords(options),
  };
}

function inWords({
  rectangleSize,
  course,
  brick,
  section,
}: ReferenceOptions): Pick<PointedStart, 'size' | 'course' | 'brick' | 'section'> {
  return {
    size:
      rectangleSize === undefined
        ? ''
        : `${inMm(rectangleSize.width)}x${inMm(rectangleSize.height)}mm`,
    course: course === undefined ? '' : typeCourse(course),
    brick: brick?.id ?? '',
    section: section?.name ?? '',
  };
}

function wayOf(
  { corners, spans, courses, course }: ReferenceOptions,
  found: boolean,
): PointedStart['way'] {
  if (corners !== undefined) return 'corners';
  if (courses !== undefined) return 'count';
  if (spans !== undefined) return 'line';
  return found && course !== undefined ? 'found' : 'line';
}

// A line over courses that were found, in the middle of the photo, and how many they are.
function countFound(
  { width, height }: Size<number>,
  { axis = 'y' }: ReferenceOptions,
  { look }: SeenOfPhoto,
): { readonly span: Span; readonly courses: number } | null {
  if (!look.ok) return null;
  const side = axis === 'y' ? height : width;
  const joints = look.value.joints.filter((at) => at > 0 && at < side);
  const courses = Math.min(usualCount, joints.length - 1);
  if (courses < 1) return null;
  const first = Math.floor((joints.length - 1 - courses) / 2);
  const from = toTenth(joints[first]!);
  const to = toTenth(from + courses * look.value.course);
  if (to > side) return null;
  const span: Span =
    axis === 'y'
      ? [
          { x: toTenth(width / 2), y: from },
          { x: toTenth(width / 2), y: to },
        ]
      : [
          { x: from, y: toTenth(height / 2) },
          { x: to, y: toTenth(height / 2) },
        ];
  return { span, courses };
}

// Through the middle, the way that courses are counted, short of either edge by a share of the photo.
function along({ width, height }: Size<number>, axis: CourseAxis, share: number): Span {
  const [x, y] = [width / 2, height / 2];
  const [near, far] = [share, 1 - share];
  return axis === 'y'
    ? [
        { x, y: toTenth(near * height) },
        { x, y: toTenth(far * height) },
      ]
    : [
        { x: toTenth(near * width), y },
        { x: toTenth(far * width), y },
      ];
}

function aboutMiddle({ width, height }: Size<number>): PointedStart['corners'] {
  const [left, right] = [toTenth(width / 4), toTenth((3 * width) / 4)];
  const [top, bottom] = [toTenth(height / 4), toTenth((3 * height) / 4)];
  return [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ];
}

const toTenth = (px: number): number => Math.round(10 * px) / 10;

const inMm = (mm: number): number => Number(mm.toFixed(6));

function stateLength(stated: StatedLength | undefined): string {
  if (stated === undefined) return '';
  const { length, tolerance } = stated;
  return `${inMm(length)}mm${tolerance === undefined ? '' : `+-${inMm(tolerance)}mm`}`;
}

// A slate that is in no list is told by its length and lap.
const typeCourse = ({ id, size }: CourseReference): string =>
  id === 'own' ? `${inMm(size)}mm` : id.replace(/^slate-(.+)-lap-(.+)$/, 'slate $1 lap $2');
