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
    for (let x = 0, at = 2 * y * row; x < across; x++, at += channels) {
      for (const end = at + channels; at < end; at++) {
        const below = at + row;
        out[to++] =
          (data[at]! + data[at + channels]! + data[below]! + data[below + channels]!) >> 2;
      }
    }
  }
  return { width: across, height: down, channels, data: out };
}

function showSpots(
  samples: Samples,
  spots: Float64Array,
  [reachX, reachY]: readonly [number, number],
): Uint8Array {
  const { width, height, channels } = samples;
  const count = spots.length / 2;
  const out = new Uint8Array(count * channels);
  const [across, down] = [tapsFor(reachX), tapsFor(reachY)];
  for (let i = 0; i < count; i++) {
    weigh(across, spots[2 * i]!, reachX, width);
    weigh(down, spots[2 * i + 1]!, reachY, height);
    if (channels === 3) takeColour(samples, { across, down }, out, 3 * i);
    else out[i] = Math.round(takeGrey(samples, across, down));
  }
  return out;
}

function takeColour(
  { width, data }: Samples,
  { across, down }: { readonly across: Taps; readonly down: Taps },
  out: Uint8Array,
  to: number,
): void {
  let red = 0;
  let green = 0;
  let blue = 0;
  for (let v = 0; v < down.used; v++) {
    const row = down.indices[v]! * width;
    const share = down.weights[v]!;
    for (let u = 0; u < across.used; u++) {
      const weight = share * across.weights[u]!;
      const at = 3 * (row + across.indices[u]!);
      red += weight * data[at]!;
      green += weight * data[at + 1]!;
      blue += weight * data[at + 2]!;
    }
  }
  out[to] = Math.round(red);
  out[to + 1] = Math.round(green);
  out[to + 2] = Math.round(blue);
}

function takeGrey({ width, data }: Samples, across: Taps, down: Taps): number {
  let grey = 0;
  for (let v = 0; v < down.used; v++) {
    const row = down.indices[v]! * width;
    for (let u = 0; u < across.used; u++) {
      grey += down.weights[v]! * across.weights[u]! * data[row + across.indices[u]!]!;
    }
  }
  return grey;
}

interface Taps {
  // How many of them weigh anything.
  used: number;
  readonly indices: Int32Array;
  readonly weights: Float64Array;
}

function tapsFor(reach: number): Taps {
  const length = Math.ceil(reach) + 2;
  return { used: 0, indices: new Int32Array(length), weights: new Float64Array(length) };
}

// A box as wide as a dot with edges as soft as a pixel; at a pixel to a dot that interpolates.
function weigh(taps: Taps, middle: number, reach: number, end: number): void {
  const { indices, weights } = taps;
  const half = (reach + 1) / 2;
  const first = Math.ceil(middle - half - 0.5);
  let sum = 0;
  let used = 0;
  for (; used < weights.length; used++) {
    const weight = Math.min(1, half - Math.abs(first + used + 0.5 - middle));
    if (weight <= 0 && used > 0) break;
    weights[used] = Math.max(0, weight);
    indices[used] = Math.min(end - 1, Math.max(0, first + used));
    sum += weights[used]!;
  }
  for (let i = 0; i < used; i++) weights[i]! /= sum;
  taps.used = used;
}
