import type { ShadeStop } from '../../page/relief-mark.js';

/**
 * Read the shade of a place off stops.
 *
 * @param stops - In order.
 * @param at - The place.
 * @returns Its shade.
 */
export function shadeAt(stops: readonly ShadeStop[], at: number): number {
  let [low, high] = [0, stops.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (stops[middle]!.at > at) high = middle;
    else low = middle;
  }
  const [one, other] = [stops[low], stops[high]];
  if (one === undefined || other === undefined) return 0;
  const wide = other.at - one.at;
  const share = wide > 0 ? Math.min(1, Math.max(0, (at - one.at) / wide)) : 0;
  return one.shade + share * (other.shade - one.shade);
}
