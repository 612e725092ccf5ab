import { colourDifference } from './colour-difference.js';
import { toLab } from './lab.js';
import { srgbToLinear } from './srgb.js';

/** How different two pictures look. */
export interface ColoursCompared {
  /** Mean CIEDE2000 of all pixels. */
  readonly mean: number;
  /** The largest mean of a run of them. */
  readonly worst: number;
  /** Which run that is, from 0. */
  readonly at: number;
}

/** How samples lie. */
export interface CompareColoursOptions {
  /** Samples a pixel: 1 grey or 3 colour. */
  readonly channels: number;
  /** Pixels a run, a whole number of which make the picture; all of them unless told. */
  readonly run?: number;
}

/**
 * How different two pictures of one size look.
 *
 * @param one - Samples of sRGB, interleaved, 8 bits.
 * @param other - As many.
 * @param options - How they lie.
 * @returns In the mean, and where it is worst.
 */
export function compareColours(
  one: Uint8Array,
  other: Uint8Array,
  options: CompareColoursOptions,
): ColoursCompared {
  const { channels } = options;
  const pixels = one.length / channels;
  const run = options.run ?? pixels;
  let [sum, worst, at] = [0, 0, 0];
  for (let from = 0; from < pixels; from += run) {
    const [start, end] = [from * channels, (from + run) * channels];
    const here = sumOf(one.subarray(start, end), other.subarray(start, end), channels);
    sum += here;
    if (here > worst * run) [worst, at] = [here / run, from / run];
  }
  return { mean: sum / pixels, worst, at };
}

function sumOf(one: Uint8Array, other: Uint8Array, channels: number): number {
  const [a, b] = [labOf(one, channels), labOf(other, channels)];
  let sum = 0;
  for (let i = 0; i < a[0].length; i++) {
    if (a[0][i] === b[0][i] && a[1][i] === b[1][i] && a[2][i] === b[2][i]) continue;
    sum += colourDifference([a[0][i]!, a[1][i]!, a[2][i]!], [b[0][i]!, b[1][i]!, b[2][i]!]);
  }
  return sum;
}

type Planes = readonly [Float32Array, Float32Array, Float32Array];

function labOf(samples: Uint8Array, channels: number): Planes {
  const count = samples.length / channels;
  const planes: Planes = [
    new Float32Array(count),
    new Float32Array(count),
    new Float32Array(count),
  ];
  planes.forEach((plane, c) => {
    const offset = channels === 1 ? 0 : c;
    for (let i = 0; i < count; i++) plane[i] = srgbToLinear(samples[i * channels + offset]!);
  });
  toLab(planes);
  return planes;
}
