import type { JointFilters } from './to-joint-filters.js';

/** What a pair of filters answers, as long as the samples. */
interface Answers {
  /** Filled: lines. */
  readonly lines: Float32Array;
  /** Filled: edges. */
  readonly edges: Float32Array;
}

/**
 * Correlate samples with both of a pair of filters; the ends are mirrored, so that the picture's
 * border is no line. Of the line filter the halves are alike, of the edge filter they are opposite,
 * so two samples are weighed at a time.
 *
 * @param samples - More than the taps reach.
 * @param filters - A pair.
 * @param answers - Filled.
 */
export function answerBoth(samples: Float32Array, filters: JointFilters, answers: Answers): void {
  const { line, edge } = filters;
  const { lines, edges } = answers;
  const { length } = samples;
  const reach = line.length >> 1;
  const wide = mirrorEnds(samples, reach);
  for (let i = 0; i < length; i++) {
    const middle = i + reach;
    let l = line[reach]! * wide[middle]!;
    let e = 0;
    for (let k = 1; k <= reach; k++) {
      const before = wide[middle - k]!;
      const after = wide[middle + k]!;
      l += line[reach + k]! * (after + before);
      e += edge[reach + k]! * (after - before);
    }
    lines[i] = l;
    edges[i] = e;
  }
}

function mirrorEnds(samples: Float32Array, reach: number): Float32Array {
  const { length } = samples;
  const wide = new Float32Array(length + 2 * reach);
  wide.set(samples, reach);
  for (let k = 0; k < reach; k++) {
    wide[reach - 1 - k] = samples[Math.min(length - 1, k)]!;
    wide[reach + length + k] = samples[Math.max(0, length - 1 - k)]!;
  }
  return wide;
}
