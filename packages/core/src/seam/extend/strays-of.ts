import type { Beds } from './place-beds.js';

/**
 * Say how far each bed joint lies from where equal courses would have it.
 *
 * @param beds - Of a photo.
 * @returns Pixels, one for each; a 0 where there are too few to say.
 */
export function straysOf(beds: Beds): readonly number[] {
  const { lines } = beds;
  if (lines.length < 3) return [0];
  const at = lines.map((line) => line.reduce((sum, y) => sum + y, 0) / line.length);
  const middle = (at.length - 1) / 2;
  let [mean, slope, spread] = [0, 0, 0];
  for (const [i, y] of at.entries()) {
    mean += y / at.length;
    slope += (i - middle) * y;
    spread += (i - middle) ** 2;
  }
  return at.map((y, i) => y - mean - ((i - middle) * slope) / spread);
}
