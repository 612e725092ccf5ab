/** Samples around a place that are weighed: two before its whole part, three after. */
export const lanczosTaps = 6;
/** How finely places between two samples are told apart. */
export const lanczosSteps = 64;

/**
 * Lanczos' kernel, three lobes a side: `lanczosTaps` weights for each of `lanczosSteps + 1` places
 * from one sample to the next, made to add up to 1.
 *
 * @see Duchon 1979, Lanczos filtering in one and two dimensions
 */
export const lanczosWeights: Float32Array = toWeights();

function toWeights(): Float32Array {
  const table = new Float32Array((lanczosSteps + 1) * lanczosTaps);
  const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
  for (let step = 0; step <= lanczosSteps; step++) {
    const weights = Array.from({ length: lanczosTaps }, (_, tap) => {
      const x = tap - 2 - step / lanczosSteps;
      return Math.abs(x) >= 3 ? 0 : sinc(x) * sinc(x / 3);
    });
    const sum = weights.reduce((a, b) => a + b, 0);
    for (const [tap, weight] of weights.entries()) table[step * lanczosTaps + tap] = weight / sum;
  }
  return table;
}
