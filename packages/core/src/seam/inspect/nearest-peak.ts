/**
 * Find the peak that a shift is to be read from: courses fit one on as well, so that of peaks that are
 * nearly as high the nearest counts.
 *
 * @param curve - Likeness at shifts, as many either way of its middle sample.
 * @param nearly - The share of the highest that is nearly as high.
 * @returns The sample.
 */
export function nearestPeak(curve: Float64Array, nearly: number): number {
  const middle = curve.length >> 1;
  let best = middle;
  for (let at = 0; at < curve.length; at++) if (curve[at]! > curve[best]!) best = at;
  for (let apart = 0; apart <= middle; apart++) {
    for (const at of [middle - apart, middle + apart]) {
      const here = curve[at]!;
      const isPeak = here >= (curve[at - 1] ?? -1) && here >= (curve[at + 1] ?? -1);
      if (isPeak && here >= nearly * curve[best]!) return at;
    }
  }
  return best;
}
