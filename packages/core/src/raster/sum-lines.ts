import type { AxisWeights } from './axis-weights.js';
import type { Raster } from './raster.js';

/**
 * Sum lines that are as narrow as the new picture already.
 *
 * @param lineAt - Line by line, RGBRGB…; each stands until two others were asked for.
 * @param down - What each new line is the sum of.
 * @param out - Filled.
 */
export function sumLines(
  lineAt: (y: number) => Float64Array,
  down: AxisWeights,
  out: Raster,
): void {
  const { width, height } = out;
  const { taps, weights } = down;
  const sum = new Float64Array(3 * width);
  for (let y = 0; y < height; y++) {
    let tap = y * taps;
    let last = tap + taps - 1;
    while (tap < last && weights[tap] === 0) tap++;
    while (tap < last && weights[last] === 0) last--;
    sum.fill(0);
    // Two at a time, and the last into the picture: the sum is fetched and stored half as often.
    for (; last - tap > 1; tap += 2) addLines(sum, pairAt(lineAt, down, tap, tap + 1));
    const rest = pairAt(lineAt, down, tap, last);
    partLines(sum, tap === last ? { ...rest, q: 0 } : rest, out, y * width);
  }
}

/** Two lines and how much of each. */
interface Pair {
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly p: number;
  readonly q: number;
}

function pairAt(
  lineAt: (y: number) => Float64Array,
  { indices, weights }: AxisWeights,
  first: number,
  second: number,
): Pair {
  const a = lineAt(indices[first]!);
  return { a, b: lineAt(indices[second]!), p: weights[first]!, q: weights[second]! };
}

function addLines(sum: Float64Array, { a, b, p, q }: Pair): void {
  for (let i = 0; i < sum.length; i++) sum[i] = sum[i]! + p * a[i]! + q * b[i]!;
}

function partLines(sum: Float64Array, pair: Pair, out: Raster, begin: number): void {
  const { a, b, p, q } = pair;
  const [red, green, blue] = out.planes;
  for (let i = 0, to = begin; i < sum.length; i += 3, to++) {
    red[to] = sum[i]! + p * a[i]! + q * b[i]!;
    green[to] = sum[i + 1]! + p * a[i + 1]! + q * b[i + 1]!;
    blue[to] = sum[i + 2]! + p * a[i + 2]! + q * b[i + 2]!;
  }
}
