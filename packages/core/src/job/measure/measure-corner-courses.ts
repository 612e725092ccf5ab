import type { CourseReference } from '../../catalogue/course-reference.js';
import type { Outcome } from '../../errors/outcome.js';
import { expandUncertainty } from '../../measure/given/expand-uncertainty.js';
import type { FocalLength } from '../../measure/find-focal-length.js';
import type { GivenCorners } from '../../measure/given/given-reference.js';
import { viewCorners } from '../../measure/given/measure-corners.js';
import { measureCourses } from '../../measure/given/measure-courses.js';
import type { RectangleRefusal } from '../../measure/given/measure-rectangle.js';
import type { Corners } from '../../measure/rectangle/sort-corners.js';
import type { Photo } from '../../read/read-photo.js';
import { largestWindow } from '../../rectify/largest-window.js';
import { straightenRaster } from '../../rectify/straighten-raster.js';
import type { FoundJoints } from '../../surface/found-joints.js';
import type { CourseAxis, Measurement } from '../../surface/measurement.js';
import { jointsFromLook, latticeFromLook } from './from-look.js';

/** A measurement by courses in the plane of corners, with what it rests on. */
export interface MeasuredInPlane extends Measurement {
  /** The corners, in order. */
  readonly corners: Corners;
  /** Joints, as found. */
  readonly joints: FoundJoints;
}

/** Corners, and what the courses in their plane are. */
export type CornersOfCourses = GivenCorners & {
  /** Courses to be found. */
  readonly known: Extract<GivenCorners['known'], { kind: 'courses' }>;
};

interface LookAtCorners {
  /** References beside the catalogue's. */
  readonly own: readonly CourseReference[];
  readonly axis: CourseAxis;
  /** Whether all joints are listed. */
  readonly listed: boolean;
  readonly focal?: FocalLength | undefined;
}

// More pixels than this show courses no better.
const mostPixels = 6e6;

/**
 * Measure a photo by courses in the plane of a rectangle's four corners, the shape of which is judged by
 * the view of it.
 *
 * @param photo - As read.
 * @param given - The corners, and the courses.
 * @param how - Which way courses are counted, and the lens where it is known.
 * @returns The measurement, or why the corners will not do.
 * @throws RangeError when the corners are no rectangle's.
 */
export function measureCornerCourses(
  photo: Photo,
  given: CornersOfCourses,
  how: LookAtCorners,
): Outcome<MeasuredInPlane, RectangleRefusal | 'shape-unknown' | 'no-courses'> {
  const seen = viewCorners(photo, given, how.focal);
  if (!seen.ok) return seen;
  const { value: view, warnings } = seen;
  const { axis, listed, own } = how;
  const { rectification } = view;
  const window = largestWindow(rectification, photo);
  const factor = Math.min(1, Math.sqrt(mostPixels / (window.width * window.height)));
  const raster = straightenRaster(photo.raster, rectification, {
    window,
    factor: { x: factor, y: factor },
  });
  const measured = measureCourses(raster, given.known.course, {
    axis,
    listed,
    own,
    straighten: 'none',
  });
  if (!measured.ok) return measured;
  const { mmPerPx, lattice, joints } = measured.value;
  const look = { x: window.x, y: window.y, factor: { x: factor, y: factor } };
  const budget = [
    ...measured.value.budget.filter(({ source }) => source !== 'perspective'),
    ...view.budget,
  ];
  return {
    ok: true,
    value: {
      ...measured.value,
      method: 'rectangle',
      mmPerPx: { x: mmPerPx.x * factor, y: mmPerPx.y * factor },
      uncertaintyPercent: expandUncertainty(budget),
      budget,
      rectification,
      corners: view.corners,
      lattice: lattice && latticeFromLook(lattice, look),
      joints: jointsFromLook(joints, look, rectification),
    },
    warnings: [...warnings, ...measured.warnings],
  };
}
