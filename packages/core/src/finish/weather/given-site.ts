import type { PerAxis } from '../../surface/measurement.js';
import type { NoiseGround } from './octaves.js';
import type { WeatherSite } from './site.js';

/** All that is known of the wall but what a page shows of it. */
export interface GivenSite
  extends Omit<WeatherSite, 'ground' | 'run'>, Pick<NoiseGround, 'seed' | 'period'> {}

/**
 * Bring a place to the nearest dot.
 *
 * @param place - In dots.
 * @returns Whole numbers.
 */
export function whole(place: PerAxis<number>): PerAxis<number> {
  return { x: Math.round(place.x), y: Math.round(place.y) };
}
