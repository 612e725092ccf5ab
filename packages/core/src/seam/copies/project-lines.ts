import type { Detail } from './sample-detail.js';

/** A few sums over all lines, each with other signs: what all lines do, they do. */
export interface Projections {
  /** Sums. */
  readonly count: number;
  /** Samples each. */
  readonly length: number;
  /** `count * length` numbers, a sum after another. */
  readonly sums: Float32Array;
}

const count = 8;

/**
 * Sum the lines up, with signs that look drawn by lot and are always the same.
 *
 * @param detail - Of a picture.
 * @returns The sums.
 */
export function projectLines(detail: Detail): Projections {
  const { length, samples } = detail;
  const sums = new Float32Array(count * length);
  let state = 0x2545f491;
  for (let line = 0; line < detail.count; line++) {
    for (let k = 0; k < count; k++) {
      // Marsaglia (2003), Xorshift RNGs, 32 bits.
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      const sign = state < 0 ? -1 : 1;
      const to = k * length;
      const from = line * length;
      for (let i = 0; i < length; i++) sums[to + i] = sums[to + i]! + sign * samples[from + i]!;
    }
  }
  return { count, length, sums };
}
