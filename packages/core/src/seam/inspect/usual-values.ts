import { quantile } from './quantile.js';

/** What a quantity is inside a picture, at places that look alike. */
export interface UsualValues {
  /** Its mean. */
  readonly mean: number;
  /** Below this, seldom is one by chance. */
  readonly least: number;
  /** Above this, seldom is one by chance. */
  readonly most: number;
}

// Over 19 in 20 of those inside by this share is not seen.
const unseen = 0.25;
// Deviations that one in some hundreds goes beyond, of many; and of so few that their deviation is a guess.
const many = 2.8;
const few = 7;

/**
 * Find between which bounds a quantity lies inside a picture.
 *
 * @param values - The quantity, place by place.
 * @param places - Where, rising; as many.
 * @param apart - Places nearer than this are one, and count once.
 * @returns The bounds; wider where there are few places.
 */
export function usualValues(values: Float64Array, places: Int32Array, apart: number): UsualValues {
  let sum = 0;
  let squares = 0;
  let groups = 0;
  let last = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    sum += value;
    squares += value * value;
    if (places[i]! - last > apart) {
      groups++;
      last = places[i]!;
    }
  }
  const mean = sum / Math.max(1, values.length);
  const deviation = Math.sqrt(Math.max(0, squares / Math.max(1, values.length) - mean * mean));
  const reach = (many + few / Math.max(1, groups)) * deviation;
  const above = quantile(values, 0.95) - mean;
  const below = mean - quantile(values, 0.05);
  return {
    mean,
    least: mean - Math.max(reach, (1 + unseen) * below),
    most: mean + Math.max(reach, (1 + unseen) * above),
  };
}
