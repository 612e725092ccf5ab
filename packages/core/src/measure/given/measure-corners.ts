import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import { toLevelPoint } from '../../surface/level-point.js';
import type { Measurement } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { realMm } from '../../units/units.js';
import { expandUncertainty } from './expand-uncertainty.js';
import type { FocalLength } from '../find-focal-length.js';
import type { GivenCorners, MarkedCorners } from './given-reference.js';
import {
  measureRectangle,
  type RectangleRefusal,
  type RectangleView,
} from './measure-rectangle.js';
import { measureSpans, type SpanResidual, type SpansRefusal } from './measure-spans.js';
import type { Corners } from '../rectangle/sort-corners.js';

/** A measurement by corners, with what it rests on. */
export interface MeasuredCorners extends Measurement {
  /** The corners, in order. */
  readonly corners: Corners;
  /** Lines, where they were given. */
  readonly spans?: readonly SpanResidual[];
}

/** Why corners that were marked may not do. */
export type CornersRefusal =
  SpansRefusal | RectangleRefusal | 'shape-unknown' | 'corners-too-close';

type Known<Kind extends string> = Extract<GivenCorners['known'], { kind: Kind }>;

// A shape less sure than this (k = 2, as a fraction) makes a measurement of nothing.
const leastShape = 0.6;
// Who marks corners may take the wrong edge; where their shape contradicts the size, likely did.
const confidences = { good: 0.97, doubted: 0.5 };

/**
 * See by the four corners of a rectangle how its plane lies.
 *
 * @param size - The photo, upright.
 * @param given - The corners, and what is known.
 * @param focal - The lens, where it is known.
 * @returns The view, or why the corners will not do.
 * @throws RangeError when the corners are no rectangle's.
 */
export function viewCorners(
  size: Size<number>,
  given: GivenCorners,
  focal: FocalLength | undefined,
): Outcome<RectangleView, RectangleRefusal | 'shape-unknown'> {
  const { corners, known } = given;
  const realSize = known.kind === 'size' ? known.size : undefined;
  const seen = measureRectangle(size, { corners, realSize, focal });
  return seen.ok && 2 * seen.value.shape.uncertainty > leastShape ? shapeUnknown : seen;
}

/**
 * Measure a photo by the four corners of a rectangle in it: its size, or, its shape being judged by
 * the view of it, lines in its plane.
 *
 * @param size - The photo, upright.
 * @param given - The corners, and what is known.
 * @param focal - The lens, where it is known.
 * @returns The measurement, or why the corners will not do.
 * @throws RangeError when the corners are no rectangle's.
 */
export function measureCorners(
  size: Size<number>,
  given: MarkedCorners,
  focal?: FocalLength,
): Outcome<MeasuredCorners, CornersRefusal> {
  const { known } = given;
  const seen = viewCorners(size, given, focal);
  if (!seen.ok) return seen;
  const { value: view, warnings } = seen;
  if (known.kind === 'spans') return bySpans(size, view, { known, warnings });
  if (expandUncertainty(view.budget) > 100 * leastShape) return tooClose;
  return { ok: true, value: bySize(view, known, warnings), warnings };
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

interface SpansInPlane {
  readonly known: Known<'spans'>;
  readonly warnings: readonly Warning[];
}

// Lines need not be level: each is measured where it lies once the picture is.
function bySpans(
  size: Size<number>,
  view: RectangleView,
  { known, warnings }: SpansInPlane,
): Outcome<MeasuredCorners, SpansRefusal> {
  const { rectification } = view;
  // Outside the photo, a point is refused as marked, not where it would come to lie.
  const marked = measureSpans(size, known.spans);
  if (!marked.ok) return marked;
  const level = known.spans.map((span) => {
    const from = toLevelPoint(rectification, size, span.from);
    const to = toLevelPoint(rectification, size, span.to);
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
  const around = {
    width: Math.max(...points.map(({ x }) => x)) - left + 1,
    height: Math.max(...points.map(({ y }) => y)) - top + 1,
  };
  const { reference } = known;
  const measured = measureSpans(around, moved, reference === null ? {} : { reference });
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
