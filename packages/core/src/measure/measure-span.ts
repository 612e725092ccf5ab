import { outOfRange } from '../errors/out-of-range.js';
import type { Outcome } from '../errors/outcome.js';
import type { Measurement, UncertaintyPart } from '../surface/measurement.js';
import type { Point } from '../units/parse-point.js';
import { type RealMm, realMm } from '../units/units.js';
import { expandUncertainty } from './expand-uncertainty.js';

/** How large a picture is, in pixels; a raster will do. */
export interface PictureSize {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/** A line in a picture whose real length is known. */
export interface KnownSpan {
  /** One end. */
  readonly from: Point;
  /** The other. */
  readonly to: Point;
  /** Real length from one to the other. */
  readonly length: RealMm;
  /** Standard uncertainty (k = 1) of each end as marked, px; 1 unless told. */
  readonly markUncertainty?: number;
  /** Standard uncertainty (k = 1) of `length`, a fraction; 0 unless told. */
  readonly lengthUncertainty?: number;
}

const inDigits = ({ x, y }: Point): string => `${x},${y}`;

/**
 * Say where a point lies outside a picture.
 *
 * @param size - The picture.
 * @param points - Any number.
 * @returns A refusal, or null where all lie inside or on the border.
 */
export function refuseOutside(
  size: PictureSize,
  points: readonly Point[],
): Extract<Outcome<never, 'outside-photo'>, { ok: false }> | null {
  const { width, height } = size;
  const out = points.find(({ x, y }) => !(x >= 0 && x <= width && y >= 0 && y <= height));
  if (out === undefined) return null;
  return {
    ok: false,
    code: 'outside-photo',
    message: `the point ${inDigits(out)} lies outside the picture, which is ${width} x ${height} px`,
    hint: 'points are x,y in pixels of the upright photo, from its top left corner',
  };
}

/**
 * Measure a picture by one line of known length, taken to be level and square to the camera.
 *
 * @param size - The picture, upright.
 * @param span - The line.
 * @returns Millimetres per pixel, the same both ways, or why the line will not do.
 * @throws RangeError when the ends are less than a pixel apart, or an uncertainty is below 0.
 */
export function measureSpan(
  size: PictureSize,
  span: KnownSpan,
): Outcome<Measurement, 'outside-photo'> {
  const { from, to, length, markUncertainty = 1, lengthUncertainty = 0 } = span;
  if (!(markUncertainty >= 0)) {
    throw outOfRange('a number of pixels of 0 or more', 'markUncertainty', markUncertainty);
  }
  if (!(lengthUncertainty >= 0)) {
    throw outOfRange('a fraction of 0 or more', 'lengthUncertainty', lengthUncertainty);
  }
  const refusal = refuseOutside(size, [from, to]);
  if (refusal) return refusal;
  const distance = Math.hypot(to.x - from.x, to.y - from.y);
  if (!(distance >= 1)) {
    throw outOfRange(
      'two points a pixel or more apart',
      'span',
      `${inDigits(from)} ${inDigits(to)}`,
    );
  }
  const mmPerPx = realMm(length / distance);
  // Both ends are marked by hand: two equal, independent parts.
  const budget: UncertaintyPart[] = [
    { source: 'reference', percent: 100 * lengthUncertainty },
    { source: 'marks', percent: (100 * Math.SQRT2 * markUncertainty) / distance },
  ];
  return {
    ok: true,
    warnings: [],
    value: {
      method: 'span',
      reference: {
        id: 'own',
        name: 'span of known length',
        size: length,
        uncertainty: lengthUncertainty,
        source: 'given by the user',
      },
      mmPerPx: { x: mmPerPx, y: mmPerPx },
      uncertaintyPercent: expandUncertainty(budget),
      budget,
      // Whoever marks it may take the wrong edge.
      confidence: 0.99,
      rectification: null,
      lattice: null,
    },
  };
}
