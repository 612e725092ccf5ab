import type { Cells } from './fold-rows.js';

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

/** One stretch of the picture: which cells, and how many rows to a sample. */
export interface Stretch {
  /** First cell. */
  readonly from: number;
  /** One past the last. */
  readonly to: number;
  /** Rows averaged into one sample. */
  readonly step: number;
}

/**
 * Average a stretch of cells across and `step` rows at a time.
 *
 * @param cells - The picture, folded.
 * @param stretch - Which part.
 * @returns Lightness down the stretch.
 */
export function gatherStretch(cells: Cells, stretch: Stretch): Float32Array {
  const { from, to, step } = stretch;
  const length = Math.floor(cells.rows / step);
  const out = new Float32Array(length);
  const scale = 1 / ((to - from) * step);
  for (let c = from; c < to; c++) {
    let at = c * cells.rows;
    for (let i = 0; i < length; i++) {
      let sum = 0;
      for (let k = 0; k < step; k++) sum += cells.lightness[at++]!;
      out[i] = out[i]! + sum * scale;
    }
  }
  return out;
}

/**
 * Tell which samples of a stretch the photo shows in all of its cells.
 *
 * @param cells - The picture, folded.
 * @param stretch - Which part.
 * @returns First sample, and one past the last.
 */
export function reachOf(cells: Cells, stretch: Stretch): { from: number; to: number } {
  let first = 0;
  let last = Math.floor(cells.rows / stretch.step);
  for (let c = stretch.from; c < stretch.to; c++) {
    first = Math.max(first, Math.ceil(cells.from[c]! / stretch.step));
    last = Math.min(last, Math.floor(cells.to[c]! / stretch.step));
  }
  return { from: first, to: last };
}

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
