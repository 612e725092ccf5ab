import type { ColourLines } from './sample-colours.js';

/** Steps of a picture along an axis: at each place, from the samples before it to those after. */
export interface StepCurve {
  /** Samples on each side that are laid together. */
  readonly width: number;
  /** At each place, in units of CIE 1976 colour difference; place 0 is the wrap. */
  readonly steps: Float64Array;
}

/**
 * Find the steps line by line, where a cut at random shows: root mean square over the lines.
 *
 * @param lines - Of a picture.
 * @param width - Samples on each side.
 * @returns Colour differences (CIE 15:2004, 8.2.1.3).
 */
export function lineSteps(lines: ColourLines, width: number): StepCurve {
  const { count, length } = lines;
  const steps = new Float64Array(length);
  for (const plane of lines.planes) {
    for (let from = 0; from < plane.length; from += length) {
      addSquares(plane.subarray(from, from + length), width, steps);
    }
  }
  for (let place = 0; place < length; place++) steps[place] = Math.sqrt(steps[place]! / count);
  return { width, steps };
}

// At each place, the mean of so many samples after it less the mean of those before, around the end.
function addSquares(line: Float32Array, width: number, out: Float64Array): void {
  const length = line.length;
  let before = 0;
  let after = 0;
  for (let i = 0; i < width; i++) {
    before += line[length - 1 - i]!;
    after += line[i]!;
  }
  const share = 1 / (width * width);
  // What is left behind, and what comes in, go around the end.
  for (let place = 0, into = width, left = length - width; place < length; place++) {
    const step = after - before;
    out[place] = out[place]! + step * step * share;
    const here = line[place]!;
    after += line[into]! - here;
    before += here - line[left]!;
    if (++into === length) into = 0;
    if (++left === length) left = 0;
  }
}

/**
 * Find the steps of all lines together, where a change of light or of colour shows.
 *
 * @param means - Of the lines, place by place.
 * @param width - Samples on each side.
 * @returns At each place, the mean after it less the mean before it, around the end.
 */
export function meanSteps(means: Float64Array, width: number): Float64Array {
  const length = means.length;
  const steps = new Float64Array(length);
  let before = 0;
  let after = 0;
  for (let i = 0; i < width; i++) {
    before += means[length - 1 - i]!;
    after += means[i]!;
  }
  for (let place = 0; place < length; place++) {
    steps[place] = (after - before) / width;
    const here = means[place]!;
    after += means[(place + width) % length]! - here;
    before += here - means[(place - width + length) % length]!;
  }
  return steps;
}
