import { expandUncertainty } from '../../measure/given/expand-uncertainty.js';
import { chanceOfRight } from '../../measure/joints/spread-of-course.js';
import type { AxisCopies } from '../../seam/copies/find-copies.js';
import type { Measurement, PerAxis, UncertaintyPart } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

/**
 * Count the joints of a picture that was tiled before only once: in n copies they lie n times as
 * far apart and are n times as many, but each is off by the same every time, and a straight line
 * through one copy is less sure by n to the power of 3/2.
 *
 * @param measurement - Of the picture.
 * @param copies - As found in it.
 * @param size - Of the picture, in pixels.
 * @returns The measurement with the uncertainty of one copy, and no surer than that allows.
 */
export function countCopiesOnce(
  measurement: Measurement,
  copies: PerAxis<AxisCopies>,
  size: Size<number>,
): Measurement {
  const axis = measurement.lattice?.axis ?? 'y';
  const { period, mirror } = copies[axis];
  const length = axis === 'x' ? size.width : size.height;
  const times = Math.max(period === null ? 1 : length / period, mirror === null ? 1 : 2);
  if (times === 1) return measurement;
  const budget = measurement.budget.map((part) =>
    part.source === 'fit' ? { ...part, percent: part.percent * times ** 1.5 } : part,
  );
  const before = chanceOfRight(uncertaintyInPicture(measurement.budget), Infinity);
  const likely = Math.min(1, measurement.confidence / before);
  return {
    ...measurement,
    budget,
    uncertaintyPercent: expandUncertainty(budget),
    confidence: likely * chanceOfRight(uncertaintyInPicture(budget), Infinity),
  };
}

// As a fraction (k = 1); how large the reference really is has nothing to do with the picture.
function uncertaintyInPicture(budget: readonly UncertaintyPart[]): number {
  return expandUncertainty(budget.filter(({ source }) => source !== 'reference')) / 200;
}
