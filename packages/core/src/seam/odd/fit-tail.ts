/** How the highest of many heights come by chance: past `from` they fall off by a factor of e a `scale`. */
export interface Tail {
  /** Where it begins. */
  readonly from: number;
  /** Its mean excess. */
  readonly scale: number;
  /** How many heights lie in it. */
  readonly count: number;
}

// The share of the heights that are its tail, and how many at least.
const share = 0.5;
const leastCount = 4;
// The highest may be no chance, and are left out: of so many one, and three at most.
const oneOf = 8;
const mostOdd = 3;
// Heights are colour differences: nobody sees spacings of less than this.
const leastScale = 0.8;
// A scale known by few spacings is taken to be larger.
const few = 2;

/**
 * Fit an exponential tail to heights: spacings between those that follow one another, times their
 * rank, are independent and have its scale for a mean (A. Renyi, On the theory of order statistics,
 * Acta Mathematica Hungarica 4 (1953)), so that the highest can be left out.
 *
 * @param heights - From the highest down.
 * @returns How chance goes on above it; null where there are too few to tell by.
 */
export function fitTail(heights: Float64Array): Tail | null {
  const left = Math.min(mostOdd, Math.floor(heights.length / oneOf));
  const used = Math.max(leastCount, Math.floor(share * (heights.length - left)));
  const count = left + used;
  if (count >= heights.length) return null;
  let sum = 0;
  for (let at = left; at < count; at++) sum += (at + 1) * (heights[at]! - heights[at + 1]!);
  const scale = Math.max(leastScale, sum / used) * (1 + few / used);
  return { from: heights[count]!, scale, count };
}
