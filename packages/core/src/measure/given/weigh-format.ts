import { type CourseReference, withoutUnit } from '../../catalogue/course-reference.js';
import type { Lattice, Measurement } from '../../surface/measurement.js';
import { expandUncertainty } from './expand-uncertainty.js';
import { nameFaces } from './name-faces.js';
import { weighBrick } from './weigh-brick.js';

/** What {@link weighFormat} starts from. */
export interface UnitCourses {
  /** By courses of 1 mm of which no brick is known. */
  readonly measurement: Measurement;
  /** Standard uncertainty (k = 1) of square pixels in it, as a fraction. */
  readonly aspect: number;
}

/**
 * Say what a photo measures if its courses, measured as 1 mm high, are of a format. Its bricks have
 * the say in the scale along them that they have where the format is named at once.
 *
 * @param unit - As measured, and how far it leaves pixels square.
 * @param reference - What its courses would be.
 * @returns The measurement by that format.
 */
export function weighFormat(unit: UnitCourses, reference: CourseReference): Measurement {
  const { measurement, aspect } = unit;
  const { lattice, mmPerPx } = measurement;
  const along = lattice && weighBrick(nameFaces(lattice, reference), reference, aspect);
  const told = along?.uncertainty ?? aspect;
  const budget = measurement.budget.map((part) => {
    if (part.source === 'reference') return { ...part, percent: 100 * reference.uncertainty };
    if (part.source !== 'perspective') return part;
    // What square pixels put it out by gives way to what the bricks leave of it.
    const variance = part.percent ** 2 + 1e4 * (told ** 2 - aspect ** 2);
    return { ...part, percent: Math.sqrt(Math.max(0, variance)) };
  });
  return {
    ...measurement,
    reference: withoutUnit(reference),
    mmPerPx: scale(mmPerPx, reference.size, { lattice, ratio: along?.ratio ?? 1 }),
    budget,
    uncertaintyPercent: expandUncertainty(budget),
  };
}

function scale(
  { x, y }: Measurement['mmPerPx'],
  size: number,
  { lattice, ratio }: { readonly lattice: Lattice | null; readonly ratio: number },
): Measurement['mmPerPx'] {
  const upright = lattice?.axis === 'x';
  return { x: x * size * (upright ? 1 : ratio), y: y * size * (upright ? ratio : 1) };
}
