import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Measurement, UncertaintyPart } from '../../surface/measurement.js';
import type { StatedLength } from '../../units/parse-stated-length.js';
import { realMm } from '../../units/units.js';
import { expandUncertainty } from './expand-uncertainty.js';
import type { FocalLength } from '../find-focal-length.js';
import { slantPart } from './slant-part.js';
import type { Size } from '../../units/parse-size.js';

/** From where a picture was taken, and with what lens. */
export interface KnownDistance {
  /** From the camera to the wall at the picture's middle; good to 0.1 m unless it says. */
  readonly distance: StatedLength;
  /** Of the lens. */
  readonly focal: FocalLength;
  /** Degrees by which the photo may be off square, either way; 0 unless told. */
  readonly slant?: number;
}

/** No such estimate is better than 5 % (k = 2), whatever its parts say. */
const leastPercent = 2.5;

// A camera is seldom where its owner stands: mm either way (common practice, no source).
const standing = 100;

/**
 * Estimate a picture's scale from the distance it was taken at: a pinhole sees the distance over
 * the focal length of the wall in each pixel.
 *
 * @param size - The picture, upright.
 * @param known - Where it was taken from.
 * @returns Millimetres per pixel, the same both ways; always with a warning that it is an estimate.
 * @throws RangeError when the focal length is not above 0.
 */
export function measureDistance(
  size: Size<number>,
  known: KnownDistance,
): Outcome<Measurement, never> {
  const { distance, focal, slant = 0 } = known;
  const { length, tolerance = Math.min(standing, length / 10) } = distance;
  if (!(focal.px > 0)) throw outOfRange('a focal length above 0', 'focal', focal.px);
  const mmPerPx = realMm(length / focal.px);
  const uncertainty = tolerance / Math.sqrt(3) / length;
  const percent = 100 * Math.hypot(uncertainty, focal.uncertainty);
  const budget: UncertaintyPart[] = [
    { source: 'distance', percent: Math.max(leastPercent, percent) },
    ...slantPart(size, [], { degrees: slant, focal }),
  ];
  const uncertaintyPercent = expandUncertainty(budget);
  const message = `this is an estimate from the distance, off by up to ${Number(uncertaintyPercent.toPrecision(2))} %: courses, or a span of known length, tell far better`;
  return {
    ok: true,
    warnings: [{ code: 'estimate', message }],
    value: {
      method: 'distance',
      reference: {
        id: 'own',
        name: 'distance it was taken from',
        size: length,
        uncertainty,
        source: `given by the user; ${focal.source}`,
      },
      mmPerPx: { x: mmPerPx, y: mmPerPx },
      uncertaintyPercent,
      budget,
      // That it is right within 1 %, where one standard uncertainty is 2.5 % and more.
      confidence: 0.25,
      rectification: null,
      lattice: null,
    },
  };
}
