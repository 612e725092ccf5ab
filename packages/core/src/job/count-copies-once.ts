import { expandUncertainty } from '../measure/expand-uncertainty.js';
import type { AxisCopies } from '../seam/find-copies.js';
import type { Measurement, PerAxis } from '../surface/measurement.js';
import type { Size } from '../units/parse-size.js';

/**
 * Count the joints of a picture that was tiled before only once: in n copies they lie n times as
 * far apart and are n times as many, but each is off by the same every time, and a straight line
 * through one copy is less sure by n to the power of 3/2.
 *
 * @param measurement - Of the picture.
 * @param copies - As found in it.
 * @param size - Of the picture, in pixels.
 * @returns The measurement with the uncertainty of one copy.
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
  return { ...measurement, budget, uncertaintyPercent: expandUncertainty(budget) };
}
