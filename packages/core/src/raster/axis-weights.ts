import { wrapInto } from '../numeric/wrap-into.js';

/** Along one axis: which samples make each new pixel, and with what weights. */
export interface AxisWeights {
  /** New pixels. */
  readonly size: number;
  /** Samples a new pixel is made of: the same number for each, some of weight 0. */
  readonly taps: number;
  /** `size * taps` indices into the axis, all inside it. */
  readonly indices: Int32Array;
  /** `size * taps` weights; those of one pixel sum to 1. */
  readonly weights: Float64Array;
}

/** How new pixels are made of old ones. */
export type ResampleKernel = 'area' | 'lanczos';

/** Where the new pixels lie on the old axis. */
export interface AxisWindow {
  /** Samples on the axis. */
  readonly length: number;
  /** Where the first new pixel begins, in samples; sample i covers i to i + 1. */
  readonly start: number;
  /** How many samples the new pixels cover together, above 0. */
  readonly extent: number;
  /** New pixels. */
  readonly size: number;
  /** Whether the axis goes on with its own beginning past its end; else its edge is held. */
  readonly wrap: boolean;
  /** How. */
  readonly kernel: ResampleKernel;
}

/**
 * Weigh the samples of an axis for new pixels: by the area each covers, or by a Lanczos kernel of
 * three lobes, widened when going down and normalised.
 *
 * @param window - Where the new pixels lie.
 * @returns Indices and weights.
 * @see Duchon 1979, Lanczos filtering in one and two dimensions, J. Appl. Meteorology 18
 */
export function axisWeights(window: AxisWindow): AxisWeights {
  const { length, start, extent, size, wrap, kernel } = window;
  const step = extent / size;
  const stretch = Math.max(1, step);
  const reach = kernel === 'area' ? step / 2 : 3 * stretch;
  const taps = Math.ceil(2 * reach - 1e-9) + 1;
  const indices = new Int32Array(size * taps);
  const weights = new Float64Array(size * taps);
  for (let i = 0; i < size; i++) {
    const low = start + i * step;
    const centre = low + step / 2;
    const first = Math.floor(centre - reach + 1e-9);
    let sum = 0;
    for (let tap = 0; tap < taps; tap++) {
      const at = first + tap;
      const weight =
        kernel === 'area'
          ? Math.max(0, Math.min(at + 1, low + step) - Math.max(at, low)) / step
          : lanczos((at + 0.5 - centre) / stretch);
      // Slivers of rounding are no samples: without this a whole-number window would read one more.
      const kept = Math.abs(weight) < 1e-9 ? 0 : weight;
      weights[i * taps + tap] = kept;
      indices[i * taps + tap] = wrap ? wrapInto(at, length) : Math.min(length - 1, Math.max(0, at));
      sum += kept;
    }
    for (let tap = 0; tap < taps; tap++) weights[i * taps + tap]! /= sum;
  }
  return { size, taps, indices, weights };
}

function lanczos(x: number): number {
  if (x <= -3 || x >= 3) return 0;
  return sinc(x) * sinc(x / 3);
}

function sinc(x: number): number {
  if (x === 0) return 1;
  return Math.sin(Math.PI * x) / (Math.PI * x);
}
