import type { Outcome } from '../errors/outcome.js';
import type { Warning } from '../errors/warning.js';
import { expandUncertainty } from '../measure/expand-uncertainty.js';
import type { FocalLength } from '../measure/find-focal-length.js';
import { measureCourses } from '../measure/measure-courses.js';
import {
  measureRectangle,
  type RectangleRefusal,
  type RectangleView,
} from '../measure/measure-rectangle.js';
import { measureSpans, type SpanResidual, type SpansRefusal } from '../measure/measure-spans.js';
import type { Corners } from '../measure/rectangle/sort-corners.js';
import type { Photo } from '../read/read-photo.js';
import { largestWindow } from '../rectify/largest-window.js';
import { straightenRaster } from '../rectify/straighten-raster.js';
import type { FoundJoints } from '../surface/found-joints.js';
import { toLevelPoint } from '../surface/level-point.js';
import type { CourseAxis, Measurement } from '../surface/measurement.js';
import { realMm } from '../units/units.js';
import { jointsFromLook, latticeFromLook } from './from-look.js';
import type { GivenCorners } from './given-reference.js';

/** A measurement by corners, with what it rests on. */
export interface MeasuredCorners extends Measurement {
  /** The corners, in order. */
  readonly corners: Corners;
  /** Joints, where courses were found. */
  readonly joints?: FoundJoints;
  /** Lines, where they were given. */
  readonly spans?: readonly SpanResidual[];
}

/** Why corners may not do. */
export type CornersRefusal =
  SpansRefusal | RectangleRefusal | 'no-courses' | 'shape-unknown' | 'corners-too-close';

interface LookAtCorners {
  readonly axis: CourseAxis;
  /** Whether all joints are listed. */
  readonly listed: boolean;
  readonly focal?: FocalLength | undefined;
}

type Known<Kind extends string> = Extract<GivenCorners['known'], { kind: Kind }>;

// A shape less sure than this (k = 2, as a fraction) makes a measurement of nothing.
const leastShape = 0.6;
// More pixels than this show courses no better.
const mostPixels = 6e6;
// Who marks corners may take the wrong edge; where their shape contradicts the size, likely did.
const confidences = { good: 0.97, doubted: 0.5 };

/**
 * Measure a photo by the four corners of a rectangle in it: its size, or, its shape being judged by
 * the view of it, courses or lines in its plane.
 *
 * @param photo - As read.
 * @param given - The corners, and what is known.
 * @param how - Which way courses are counted, and the lens where it is known.
 * @returns The measurement, or why the corners will not do.
 * @throws RangeError when the corners are no rectangle's.
 */
export function measureCorners(
  photo: Photo,
  given: GivenCorners,
  how: LookAtCorners,
): Outcome<MeasuredCorners, CornersRefusal> {
  const { corners, known } = given;
  const realSize = known.kind === 'size' ? known.size : undefined;
  const seen = measureRectangle(photo, { corners, realSize, focal: how.focal });
  if (!seen.ok) return seen;
  const { value: view, warnings } = seen;
  if (2 * view.shape.uncertainty > leastShape) return shapeUnknown;
  switch (known.kind) {
    case 'size':
      if (expandUncertainty(view.budget) > 100 * leastShape) return tooClose;
      return { ok: true, value: bySize(view, known, warnings), warnings };
    case 'courses':
      return byCourses(photo, view, { known, axis: how.axis, listed: how.listed, warnings });
    case 'spans':
      return bySpans(photo, view, { known, warnings });
  }
}

const tooClose: Extract<Outcome<never, 'corners-too-close'>, { ok: false }> = {
  ok: false,
  code: 'corners-too-close',
  message: 'the corners lie too close together to tell how big the rest of the photo is',
  hint: 'mark a larger rectangle, or measure a larger photo',
};

const shapeUnknown: Extract<Outcome<never, 'shape-unknown'>, { ok: false }> = {
  ok: false,
  code: 'shape-unknown',
  message: 'this view of the rectangle does not tell its shape: the corners lie too close together',
  hint: 'give its real size (--real-size 1.2x2m), or mark a larger rectangle',
};

function bySize(
  view: RectangleView,
  { size }: Known<'size'>,
  warnings: readonly Warning[],
): MeasuredCorners {
  const mmPerPx = view.mmPerPx ?? NaN;
  const doubted = warnings.some(({ code }) => code === 'contradictory-size');
  return {
    method: 'rectangle',
    reference: {
      id: 'own',
      name: 'rectangle of known size',
      size: realMm(Math.max(size.width, size.height)),
      uncertainty: 0,
      source: 'given by the user',
    },
    mmPerPx: { x: mmPerPx, y: mmPerPx },
    uncertaintyPercent: expandUncertainty(view.budget),
    budget: view.budget,
    corners: view.corners,
    confidence: doubted ? confidences.doubted : confidences.good,
    rectification: view.rectification,
    lattice: null,
  };
}

interface CoursesInPlane {
  readonly known: Known<'courses'>;
  readonly axis: CourseAxis;
  readonly listed: boolean;
  readonly warnings: readonly Warning[];
}

function byCourses(
  photo: Photo,
  view: RectangleView,
  { known, axis, listed, warnings }: CoursesInPlane,
): Outcome<MeasuredCorners, 'no-courses'> {
  const { rectification } = view;
  const window = largestWindow(rectification, photo);
  const factor = Math.min(1, Math.sqrt(mostPixels / (window.width * window.height)));
  const raster = straightenRaster(photo.raster, rectification, {
    window,
    factor: { x: factor, y: factor },
  });
  const measured = measureCourses(raster, known.course, { axis, listed, straighten: 'none' });
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

interface SpansInPlane {
  readonly known: Known<'spans'>;
  readonly warnings: readonly Warning[];
}

// Lines need not be level: each is measured where it lies once the picture is.
function bySpans(
  photo: Photo,
  view: RectangleView,
  { known, warnings }: SpansInPlane,
): Outcome<MeasuredCorners, SpansRefusal> {
  const { rectification } = view;
  // Outside the photo, a point is refused as marked, not where it would come to lie.
  const marked = measureSpans(photo, known.spans);
  if (!marked.ok) return marked;
  const level = known.spans.map((span) => {
    const from = toLevelPoint(rectification, photo, span.from);
    const to = toLevelPoint(rectification, photo, span.to);
    const along = Math.hypot(span.to.x - span.from.x, span.to.y - span.from.y);
    const markUncertainty = Math.hypot(to.x - from.x, to.y - from.y) / along;
    return { ...span, from, to, markUncertainty };
  });
  const points = level.flatMap(({ from, to }) => [from, to]);
  const left = Math.min(...points.map(({ x }) => x));
  const top = Math.min(...points.map(({ y }) => y));
  const moved = level.map((span) => ({
    ...span,
    from: { x: span.from.x - left, y: span.from.y - top },
    to: { x: span.to.x - left, y: span.to.y - top },
  }));
  const size = {
    width: Math.max(...points.map(({ x }) => x)) - left + 1,
    height: Math.max(...points.map(({ y }) => y)) - top + 1,
  };
  const { reference } = known;
  const measured = measureSpans(size, moved, reference === null ? {} : { reference });
  if (!measured.ok) return measured;
  const budget = [...measured.value.budget, ...view.budget];
  return {
    ok: true,
    value: {
      ...measured.value,
      method: 'rectangle',
      uncertaintyPercent: expandUncertainty(budget),
      budget,
      confidence: Math.min(confidences.good, measured.value.confidence),
      rectification,
      corners: view.corners,
    },
    warnings: [...warnings, ...measured.warnings],
  };
}
