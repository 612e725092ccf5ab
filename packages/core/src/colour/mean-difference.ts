import { colourDifference } from './colour-difference.js';
import { toLab } from './lab.js';
import { srgbToLinear } from './srgb.js';

// Enough to know a mean to a few per cent.
const mostPixels = 40_000;

/**
 * How different two pictures of one size look, in the mean.
 *
 * @param one - Samples of sRGB, interleaved, 8 bits.
 * @param other - As many.
 * @param channels - Samples a pixel: 1 grey or 3 colour.
 * @returns Mean CIEDE2000 over pixels spread evenly over the picture.
 */
export function meanDifference(one: Uint8Array, other: Uint8Array, channels: number): number {
  const pixels = one.length / channels;
  const step = Math.max(1, Math.floor(pixels / mostPixels));
  const count = Math.ceil(pixels / step);
  const [a, b] = [labOf(one, { channels, step, count }), labOf(other, { channels, step, count })];
  let sum = 0;
  for (let i = 0; i < count; i++) {
    sum += colourDifference([a[0][i]!, a[1][i]!, a[2][i]!], [b[0][i]!, b[1][i]!, b[2][i]!]);
  }
  return sum / count;
}

type Planes = readonly [Float32Array, Float32Array, Float32Array];

interface Spread {
  readonly channels: number;
  readonly step: number;
  readonly count: number;
}

function labOf(samples: Uint8Array, { channels, step, count }: Spread): Planes {
  const planes: Planes = [
    new Float32Array(count),
    new Float32Array(count),
    new Float32Array(count),
  ];
  planes.forEach((plane, c) => {
    const offset = channels === 1 ? 0 : c;
    for (let i = 0; i < count; i++) plane[i] = srgbToLinear(samples[i * step * channels + offset]!);
  });
  toLab(planes);
  return planes;
}
