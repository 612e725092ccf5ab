import { median } from '../../numeric/median.js';
import { cropRaster } from '../../raster/crop-raster.js';
import type { Raster } from '../../raster/raster.js';
import { toLevelPoint, toPhotoPoint } from '../../surface/level-point.js';
import type { Point } from '../../units/parse-point.js';
import type { Rectification } from '../../surface/measurement.js';
import { findBreak } from './find-break.js';
import { findFaint } from './find-faint.js';
import { type CourseFit, findCourses, type FindCoursesOptions } from '../find-courses.js';

/** Part of a wall that is laid to one course height, along the axis in pixels of the level picture. */
interface Work {
  /** First joint. */
  readonly from: number;
  /** Last joint. */
  readonly to: number;
  /** Bed joint to bed joint. */
  readonly course: number;
}

/** A wall of two works: brick below and block above, say. */
export interface Works {
  /** The one with more to show, which is measured. */
  readonly measured: Work;
  /** The other. */
  readonly other: Work;
}

/** A part that shows no joints is looked at where it is this share of the picture or more. */
const leastShare = 0.22;
/** Another work is told of at this confidence and no less. */
const leastConfidence = 0.8;
/** The same, where joints that grow faint speak for it too. */
const leastBeside = 0.4;
/** The first and the last course may be so much higher or lower than the usual one. */
const mostStray = 0.08;
/** Courses that differ by less are of one work. */
const leastApart = 0.04;

/**
 * Find out whether a wall is of two works, one above the other, each laid to its own course height:
 * the joints change their distance on the way, or stop, or grow faint, and courses of another height
 * go on.
 *
 * @param raster - The photo.
 * @param fit - Courses found in it.
 * @param options - How they were looked for.
 * @returns Both works, or null where the wall is one.
 */
export function findWorks(
  raster: Raster,
  fit: CourseFit,
  options: FindCoursesOptions = {},
): Works | null {
  return findInside(fit) ?? findMultiple(raster, fit, options) ?? findBeyond(raster, fit, options);
}

function findInside({ joints }: CourseFit): Works | null {
  const found = findBreak(joints);
  if (found === null) return null;
  const { first, last } = endsOf(joints);
  const [at, next] = [joints[found.at]!, joints[found.at + 1]!];
  const above = { from: first, to: at, course: found.before };
  const below = { from: next, to: last, course: found.after };
  return at - first > last - next
    ? { measured: above, other: below }
    : { measured: below, other: above };
}

// Courses of twice the height, or of a half, keep the step of the others from end to end; but of
// their joints only every second one is there, or they are half of all that are.
function findMultiple(raster: Raster, fit: CourseFit, options: FindCoursesOptions): Works | null {
  const faint = findFaint(fit.found.beds);
  if (faint === null) return null;
  const { at, isFirst } = faint;
  const measured = trim(isFirst ? fit.joints.slice(at + 1) : fit.joints.slice(0, at + 1));
  const { from, to } = showsAll(raster, fit);
  const band = isFirst ? { from, to: measured.from } : { from: measured.to, to };
  const other = look(raster, fit, { band, options, least: leastBeside });
  if (other === null) return null;
  const times = Math.max(other.course / measured.course, measured.course / other.course);
  const whole = Math.round(times);
  return whole > 1 && Math.abs(times / whole - 1) < leastApart ? { measured, other } : null;
}

interface Band {
  readonly from: number;
  readonly to: number;
}

function findBeyond(raster: Raster, fit: CourseFit, options: FindCoursesOptions): Works | null {
  const measured = trim(fit.joints);
  const { from: first, to: last, course } = measured;
  const { from, to } = showsAll(raster, fit);
  const bands = [
    { from, to: first },
    { from: last, to },
  ].sort((a, b) => b.to - b.from - (a.to - a.from));
  for (const band of bands) {
    if (band.to - band.from < leastShare * (to - from)) continue;
    const other = look(raster, fit, { band, options });
    if (other !== null && Math.abs(Math.log(other.course / course)) >= leastApart) {
      return { measured, other };
    }
  }
  return null;
}

// Followed past the end of its work, a course finds joints of the other that lie somewhere near.
function trim(joints: readonly number[]): Work {
  const steps = joints.slice(1).map((at, k) => at - joints[k]!);
  const usual = median(Float64Array.from(steps));
  const fits = steps.map((step) => Math.abs(step / usual - 1) < mostStray);
  const [begin, end] = [fits.indexOf(true), fits.lastIndexOf(true) + 1];
  const { first, last } = endsOf(joints.slice(begin, end + 1));
  return { from: first, to: last, course: (last - first) / (end - begin) };
}

// The middle line of the photo along the axis, in the level picture.
function showsAll({ width, height }: Raster, { axis, rectification }: CourseFit): Band {
  const size = { width, height };
  const end = axis === 'y' ? { x: width / 2, y: height } : { x: width, y: height / 2 };
  const start = axis === 'y' ? { x: width / 2, y: 0 } : { x: 0, y: height / 2 };
  if (rectification === null) return { from: start[axis], to: end[axis] };
  const along = (point: Point): number => toLevelPoint(rectification, size, point)[axis];
  return { from: along(start), to: along(end) };
}

interface Sought {
  readonly band: Band;
  readonly options: FindCoursesOptions;
  readonly least?: number;
}

function look(raster: Raster, fit: CourseFit, sought: Sought): Work | null {
  const { band, options, least = leastConfidence } = sought;
  const { axis, rectification } = fit;
  const [from, to] = toPhotoBand(raster, fit, band);
  if (to - from < 32) return null;
  const window =
    axis === 'y'
      ? { x: 0, y: from, width: raster.width, height: to - from }
      : { x: from, y: 0, width: to - from, height: raster.height };
  // The part is seldom what the camera looked straight at: no word of its lens.
  const { straighten = 'full' } = options;
  const found = findCourses(cropRaster(raster, window), { axis, straighten, listed: false });
  if (!found.ok || found.value.confidence < least) return null;
  const { joints, rectification: own } = found.value;
  const middle = axis === 'y' ? raster.width / 2 : raster.height / 2;
  const along = (at: number): number => {
    const inPart = apply(toPhotoPoint, own, window, place(axis, at, middle));
    const inPhoto = { x: inPart.x + window.x, y: inPart.y + window.y };
    return apply(toLevelPoint, rectification, raster, inPhoto)[axis];
  };
  const { first, last } = endsOf(joints);
  const work = { from: along(first), to: along(last) };
  return { ...work, course: (work.to - work.from) / (joints.length - 1) };
}

function endsOf(joints: readonly number[]): { readonly first: number; readonly last: number } {
  return { first: joints[0] ?? 0, last: joints[joints.length - 1] ?? 0 };
}

const place = (axis: 'x' | 'y', at: number, middle: number): Point =>
  axis === 'y' ? { x: middle, y: at } : { x: at, y: middle };

function apply(
  move: typeof toLevelPoint,
  rectification: Rectification | null,
  { width, height }: { readonly width: number; readonly height: number },
  point: { readonly x: number; readonly y: number },
): { readonly x: number; readonly y: number } {
  return rectification === null ? point : move(rectification, { width, height }, point);
}

// Whole rows of the photo that lie in the band from side to side.
function toPhotoBand(
  { width, height }: Raster,
  { axis, rectification }: CourseFit,
  band: Band,
): [number, number] {
  const [length, across] = axis === 'y' ? [height, width] : [width, height];
  const at = (along: number): number[] =>
    [0, across / 2, across].map(
      (side) =>
        apply(toPhotoPoint, rectification, { width, height }, place(axis, along, side))[axis],
    );
  const from = Math.max(0, Math.ceil(Math.max(...at(band.from))));
  const to = Math.min(length, Math.floor(Math.min(...at(band.to))));
  return [from, to];
}
