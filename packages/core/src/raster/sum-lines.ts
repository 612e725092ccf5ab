import type { AxisWeights } from './axis-weights.js';
import type { Raster } from './raster.js';

/**
 * Sum lines that are as narrow as the new picture already.
 *
 * @param lineAt - Line by line, RGBRGB….
 * @param down - What each new line is the sum of.
 * @param out - Filled.
 */
export function sumLines(
  lineAt: (y: number) => Float64Array,
  down: AxisWeights,
  out: Raster,
): void {
  const { width, height } = out;
  const { taps, indices, weights } = down;
  const sum = new Float64Array(3 * width);
  for (let y = 0; y < height; y++) {
    sum.fill(0);
    for (let tap = y * taps; tap < (y + 1) * taps; tap++) {
      const weight = weights[tap]!;
      if (weight !== 0) addLine(sum, lineAt(indices[tap]!), weight);
    }
    part(sum, out, y * width);
  }
}

function addLine(sum: Float64Array, line: Float64Array, weight: number): void {
  for (let i = 0; i < sum.length; i++) sum[i]! += weight * line[i]!;
}

function part(line: Float64Array, { planes }: Raster, begin: number): void {
  const [red, green, blue] = planes;
  for (let i = 0, to = begin; i < line.length; i += 3, to++) {
    red[to] = line[i]!;
    green[to] = line[i + 1]!;
    blue[to] = line[i + 2]!;
  }
}
