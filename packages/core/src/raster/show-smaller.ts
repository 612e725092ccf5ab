import type { Samples } from './average-samples.js';

/** Where the dots of a print fall on a picture. */
export interface DotSpots {
  /** Their middles: column, row, column, row, …, in pixels. */
  readonly spots: Float64Array;
  /** Pixels to a dot along rows. */
  readonly x: number;
  /** Pixels to a dot along columns. */
  readonly y: number;
}

// Nearer to the print than this, programs interpolate. And none looks at more pixels than so many.
const interpolated = 4 / 3;
const widest = 16;

/**
 * What dots show of a picture in a program that takes the mean of the pixels that a dot covers, those at
 * its edges by their share.
 *
 * @param samples - Without alpha.
 * @param dots - Where.
 * @returns A pixel for each dot, its samples interleaved.
 */
export function showByArea(samples: Samples, dots: DotSpots): Uint8Array {
  const { spots } = dots;
  const [reachX, reachY] = [dots.x, dots.y].map((pixels) =>
    pixels < interpolated ? 1 : Math.min(pixels, widest),
  ) as [number, number];
  return showSpots(samples, spots, [reachX, reachY]);
}

/**
 * What dots show of a picture in a program that halves it as long as it stays finer than the dots, and
 * interpolates between the pixels that are left.
 *
 * @param samples - Without alpha.
 * @param dots - Where.
 * @returns A pixel for each dot, its samples interleaved.
 */
export function showByHalves(samples: Samples, dots: DotSpots): Uint8Array {
  let [halved, step] = [samples, 1];
  const fine = Math.min(dots.x, dots.y) + 1e-6;
  while (step * 2 <= fine && Math.min(halved.width, halved.height) > 1) {
    halved = halve(halved);
    step *= 2;
  }
  return showSpots(halved, step === 1 ? dots.spots : dots.spots.map((at) => at / step), [1, 1]);
}

function halve({ width, height, channels, data }: Samples): Samples {
  const [across, down] = [width >> 1, height >> 1];
  const out = new Uint8Array(across * down * channels);
  const row = width * channels;
  let to = 0;
  for (let y = 0; y < down; y++) {
    for (let x = 0; x < across; x++) {
      const at = 2 * y * row + 2 * x * channels;
      for (let c = at; c < at + channels; c++) {
        out[to++] =
          (data[c]! + data[c + channels]! + data[c + row]! + data[c + row + channels]!) >> 2;
      }
    }
  }
  return { width: across, height: down, channels, data: out };
}

function showSpots(
  { width, height, channels, data }: Samples,
  spots: Float64Array,
  [reachX, reachY]: readonly [number, number],
): Uint8Array {
  const count = spots.length / 2;
  const out = new Uint8Array(count * channels);
  const [across, down] = [tapsFor(reachX), tapsFor(reachY)];
  const sum = new Float64Array(channels);
  for (let i = 0; i < count; i++) {
    weigh(across, spots[2 * i]!, reachX, width);
    weigh(down, spots[2 * i + 1]!, reachY, height);
    sum.fill(0);
    for (let v = 0; v < down.length; v++) {
      const row = down.indices[v]! * width;
      for (let u = 0; u < across.length; u++) {
        const weight = down.weights[v]! * across.weights[u]!;
        const at = (row + across.indices[u]!) * channels;
        for (let c = 0; c < channels; c++) sum[c]! += weight * data[at + c]!;
      }
    }
    for (let c = 0; c < channels; c++) out[i * channels + c] = Math.round(sum[c]!);
  }
  return out;
}

interface Taps {
  readonly length: number;
  readonly indices: Int32Array;
  readonly weights: Float64Array;
}

function tapsFor(reach: number): Taps {
  const length = Math.ceil(reach) + 2;
  return { length, indices: new Int32Array(length), weights: new Float64Array(length) };
}

// A box as wide as a dot with edges as soft as a pixel; at a pixel to a dot that interpolates.
function weigh(
  { length, indices, weights }: Taps,
  middle: number,
  reach: number,
  end: number,
): void {
  const half = (reach + 1) / 2;
  const first = Math.ceil(middle - half - 0.5);
  let sum = 0;
  for (let i = 0; i < length; i++) {
    const weight = Math.max(0, Math.min(1, half - Math.abs(first + i + 0.5 - middle)));
    weights[i] = weight;
    indices[i] = Math.min(end - 1, Math.max(0, first + i));
    sum += weight;
  }
  for (let i = 0; i < length; i++) weights[i]! /= sum;
}
