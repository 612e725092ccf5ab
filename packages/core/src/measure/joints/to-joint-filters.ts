/** A pair of filters of one size that tell lines and edges apart, each of unit energy. */
export interface JointFilters {
  /** Answers a line darker than both sides. */
  readonly line: Float64Array;
  /** Answers an edge, dark above. */
  readonly edge: Float64Array;
}

// No answer to a flat wall, energy 1.
function level(taps: Float64Array): Float64Array {
  const mean = taps.reduce((sum, tap) => sum + tap, 0) / taps.length;
  const flat = taps.map((tap) => tap - mean);
  const energy = Math.sqrt(flat.reduce((sum, tap) => sum + tap * tap, 0));
  return flat.map((tap) => tap / energy);
}

/**
 * Make filters for joints of one size: derivatives of a bell.
 *
 * @param sigma - Deviation of the bell in samples, 0.7 or more.
 * @returns Taps, an odd number of them.
 */
export function toJointFilters(sigma: number): JointFilters {
  const reach = Math.max(2, Math.ceil(3.5 * sigma));
  const line = new Float64Array(2 * reach + 1);
  const edge = new Float64Array(2 * reach + 1);
  for (let i = -reach; i <= reach; i++) {
    const t = i / sigma;
    const bell = Math.exp((-t * t) / 2);
    line[i + reach] = (t * t - 1) * bell;
    edge[i + reach] = t * bell;
  }
  return { line: level(line), edge: level(edge) };
}
