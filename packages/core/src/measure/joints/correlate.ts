/**
 * Correlate samples with taps; the ends are mirrored, so that the picture's border is no line.
 *
 * @param samples - More than the taps reach.
 * @param taps - An odd number.
 * @param out - Filled, as long as the samples.
 * @returns `out`.
 */
export function correlate(
  samples: Float32Array,
  taps: Float64Array,
  out: Float32Array,
): Float32Array {
  const n = samples.length;
  const reach = taps.length >> 1;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    if (i >= reach && i < n - reach) {
      for (let k = 0; k < taps.length; k++) sum += taps[k]! * samples[i + k - reach]!;
    } else {
      for (let k = 0; k < taps.length; k++) {
        const j = i + k - reach;
        const inside = j < 0 ? -j - 1 : j >= n ? 2 * n - 1 - j : j;
        sum += taps[k]! * samples[Math.min(n - 1, Math.max(0, inside))]!;
      }
    }
    out[i] = sum;
  }
  return out;
}
