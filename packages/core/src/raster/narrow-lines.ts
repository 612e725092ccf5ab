import type { AxisWeights } from './axis-weights.js';
import type { LineSource } from './line-source.js';

/**
 * Make lines narrower: the means of their samples, by weights.
 *
 * @param lines - The picture.
 * @param across - One weighted sum for every new sample.
 * @returns Line by line, RGBRGB…; each stands until two others were asked for.
 */
export function narrowLines(lines: LineSource, across: AxisWeights): (y: number) => Float64Array {
  return keepTwo(across, (line, y) => {
    for (const channel of [0, 1, 2] as const)
      narrow(lines.line(channel, y), across, { line, channel });
  });
}

/**
 * Make each narrow line once, where they are asked for in order and the last one again.
 *
 * @param across - How wide they are.
 * @param make - Fills a line.
 * @returns Line by line.
 */
export function keepTwo(
  across: AxisWeights,
  make: (line: Float64Array, y: number) => void,
): (y: number) => Float64Array {
  let [latest, other] = [new Float64Array(3 * across.size), new Float64Array(3 * across.size)];
  let [at, before] = [-1, -1];
  return (y) => {
    if (y !== at) {
      [latest, other, at, before] = [other, latest, before, at];
      if (y !== at) make(latest, y);
      at = y;
    }
    return latest;
  };
}

function narrow(
  samples: Float32Array,
  { taps, indices, weights }: AxisWeights,
  to: { readonly line: Float64Array; readonly channel: number },
): void {
  const { line, channel } = to;
  for (let i = channel, tap = 0; i < line.length; i += 3) {
    let sum = 0;
    for (const end = tap + taps; tap < end; tap++) sum += weights[tap]! * samples[indices[tap]!]!;
    line[i] = sum;
  }
}
