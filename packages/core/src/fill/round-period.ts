import { outOfRange } from '../errors/out-of-range.js';
import { px, type Px } from '../units/units.js';

/** A tile's period in whole pixels, and what rounding did to its scale. */
export interface WholePeriod {
  /** Bond repeats that one tile holds, 1 or more. */
  readonly repeats: number;
  /** Period of the tile: a whole number. */
  readonly period: Px;
  /** Printed size over true size, less 1. */
  readonly scaleError: number;
}

/** What a caller may ask of {@link roundPeriod}. */
export interface RoundPeriodOptions {
  /** Largest scale error either way, as a fraction: 0.001 is 0.1 %, the default. */
  readonly tolerance?: number;
}

/**
 * Round a bond repeat to whole pixels without losing its scale.
 *
 * @param repeat - One bond repeat at print resolution, 1 px or more, seldom whole.
 * @param options - How true the tile must be.
 * @returns The shortest tile within tolerance.
 * @throws RangeError when `repeat` is under 1 px or `tolerance` is not above 0.
 */
export function roundPeriod(repeat: Px, options: RoundPeriodOptions = {}): WholePeriod {
  const { tolerance = 0.001 } = options;
  if (!(repeat >= 1 && repeat < Infinity)) {
    throw outOfRange('a bond repeat of 1 px or more', 'repeat', repeat);
  }
  if (!(tolerance > 0)) throw outOfRange('a fraction above 0', 'tolerance', tolerance);
  // Ends: rounding moves a tile by half a pixel at most, so a long enough one is within tolerance.
  for (let repeats = 1; ; repeats++) {
    const exact = repeat * repeats;
    const period = Math.round(exact);
    const scaleError = period / exact - 1;
    if (Math.abs(scaleError) <= tolerance) return { repeats, period: px(period), scaleError };
  }
}
