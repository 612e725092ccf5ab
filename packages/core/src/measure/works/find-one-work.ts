import type { Outcome } from '../../errors/outcome.js';
import type { Warning, WarningCode } from '../../errors/warning.js';
import { cropRaster, type WholeWindow } from '../../raster/crop-raster.js';
import type { Raster } from '../../raster/raster.js';
import { shrinkRaster } from '../../raster/shrink-raster.js';
import { toPhotoPoint } from '../../surface/level-point.js';
import { doubtAxis } from './doubt-axis.js';
import { findBreak } from './find-break.js';
import { type CourseFit, findCourses, type FindCoursesOptions } from '../find-courses.js';
import { findWorks, type Works } from './find-works.js';
import { keepOneWork } from './keep-one-work.js';

/** Halves of a photo that was refused are looked at no larger than this. */
const longestHalf = 800;
/** Works of a refused photo are told of at this confidence and no less. */
const leastConfidence = 0.8;
/** Share of a half that its courses must take up. */
const leastCover = 0.6;
/** Courses that differ by less are of one work. */
const leastApart = 0.04;

/** What is said of courses that change once, and is not so of either work. */
const ofBoth: ReadonlySet<WarningCode> = new Set(['uneven-scale', 'irregular-courses']);

/**
 * Find the courses of a wall, and where it is of two works, those of one of them alone.
 *
 * @param raster - A photo.
 * @param options - Which way courses lie, and how far the photo may be straightened.
 * @returns Courses of one height, with a warning where others go on beside them; or `no-courses`.
 */
export function findOneWork(
  raster: Raster,
  options: FindCoursesOptions = {},
): Outcome<CourseFit, 'no-courses'> {
  const first = findCourses(raster, options);
  if (!first.ok) return tellHalves(raster, options) ?? first;
  const bent = isBent(first.value, raster);
  const found = doubtAxis(bent ? lookUnbent(raster, options, first) : first, raster, options);
  if (!found.ok) return found;
  const works = findWorks(raster, found.value, options);
  if (works === null) return found;
  const value = keepOneWork(found.value, works, raster);
  const isCut = value.joints.length < found.value.joints.length;
  const warnings = found.warnings.filter(({ code }) => !isCut || !ofBoth.has(code));
  return { ok: true, value, warnings: [...warnings, warnOf(works, value, raster)] };
}

// Two works one above the other pass for one in perspective; but in the photo their joints make two
// straight lines, where perspective bends one.
function isBent({ axis, rectification, joints }: CourseFit, { width, height }: Raster): boolean {
  if (rectification === null) return false;
  const inPhoto = joints.map((at) => {
    const level = axis === 'y' ? { x: width / 2, y: at } : { x: at, y: height / 2 };
    return toPhotoPoint(rectification, { width, height }, level)[axis];
  });
  return findBreak(inPhoto) !== null;
}

function lookUnbent(
  raster: Raster,
  options: FindCoursesOptions,
  first: Outcome<CourseFit, 'no-courses'>,
): Outcome<CourseFit, 'no-courses'> {
  const level = findCourses(raster, { ...options, straighten: 'level' });
  return level.ok && findWorks(raster, level.value, options) !== null ? level : first;
}

function warnOf({ measured, other }: Works, fit: CourseFit, { width, height }: Raster): Warning {
  const { axis, rectification } = fit;
  const size = { width, height };
  const toPhoto = (at: number): string => {
    const level = axis === 'y' ? { x: width / 2, y: at } : { x: at, y: height / 2 };
    return (rectification === null ? level : toPhotoPoint(rectification, size, level))[
      axis
    ].toFixed(0);
  };
  const [before, after] = axis === 'y' ? ['above', 'below'] : ['to the left', 'to the right'];
  const isFirst = measured.from < other.from;
  const edge = isFirst ? measured.to : measured.from;
  const high = axis === 'y' ? 'high' : 'wide';
  const message = `courses are ${inPixels(measured)} px ${high} ${isFirst ? before : after} ${axis} = ${toPhoto(edge)} and ${inPixels(other)} px ${isFirst ? after : before}: the measurement is of the part from ${axis} = ${toPhoto(measured.from)} to ${toPhoto(measured.to)}`;
  return { code: 'two-works', message };
}

const inPixels = ({ course }: { readonly course: number }): string => course.toFixed(1);

// Halves side by side, then one above the other: where each has courses, of two heights, there is
// no one height to find.
function tellHalves(
  raster: Raster,
  options: FindCoursesOptions,
): Outcome<never, 'no-courses'> | null {
  const { width, height } = raster;
  const times = Math.max(1, Math.floor(Math.max(width, height) / longestHalf));
  if (Math.min(width, height) < times) return null;
  const small = shrinkRaster(raster, times);
  const [w, h] = [small.width >> 1, small.height >> 1];
  const pairs = [
    {
      windows: [window(0, 0, w, small.height), window(w, 0, w, small.height)],
      at: `x = ${width >> 1}`,
      sides: ['left of', 'right of'],
    },
    {
      windows: [window(0, 0, small.width, h), window(0, h, small.width, h)],
      at: `y = ${height >> 1}`,
      sides: ['above', 'below'],
    },
  ];
  // Neither half is what the camera looked straight at.
  const { axis = 'y', straighten = 'full' } = options;
  const how = { axis, straighten };
  for (const { windows, at, sides } of pairs) {
    const [first, second] = windows.map((part) => courseIn(small, part, how));
    if (!first || !second || Math.abs(Math.log(second / first)) < leastApart) continue;
    const high = axis === 'x' ? 'wide ' : 'high ';
    const said = [first, second].map(
      (course, i) => `${(course * times).toFixed(1)} px ${i === 0 ? high : ''}${sides[i] ?? ''}`,
    );
    return {
      ok: false,
      code: 'no-courses',
      message: `the wall is of two works: its courses are ${said.join(' and ')} about ${at}`,
      hint: 'crop the photo to one of them, or give a span of known length',
    };
  }
  return null;
}

function window(x: number, y: number, width: number, height: number): WholeWindow {
  return { x, y, width, height };
}

function courseIn(raster: Raster, part: WholeWindow, options: FindCoursesOptions): number | null {
  if (Math.min(part.width, part.height) < 32) return null;
  const found = findCourses(cropRaster(raster, part), { ...options, listed: false });
  if (!found.ok || found.value.confidence < leastConfidence) return null;
  const { axis, joints, course } = found.value;
  // Courses that stop inside a half are no work of that half.
  const length = axis === 'y' ? part.height : part.width;
  return course * (joints.length - 1) >= leastCover * length ? course : null;
}
