import { findPlaces, toProfile } from './find-places.js';
import type { SampledLines } from './sample-lines.js';

/** Steps of a picture along an axis: at each place, from the samples before it to those after. */
interface StepCurve {
  // Samples on each side that are laid together.
  readonly width: number;
  readonly steps: Float64Array;
}

// Line by line, where a random cut shows; a second width, so that blur at an edge hides nothing.
const lineWidths = [1, 2] as const;
// All lines together, where a change of light shows.
const lightWidths = [2, 8] as const;
// A step a quarter over what is usual inside is not seen.
const unseen = 1.25;
// A change of light this small beside the grain hides in it.
const hidden = 0.2;
// How strange a wrap must look before it counts as a step.
const strangeShare = 0.75;
/** Shorter than this, a picture has no inside to compare with. */
export const leastLength = 32;
// Where nothing steps inside, any step across the wrap is past all measure.
const mostScore = 100;

/**
 * Score how well a picture meets itself along an axis.
 *
 * @param lines - Of the picture along that axis: rows to hold its right side against its left.
 * @returns The step across the wrap over the 95th percentile of steps inside, where it looks as it
 * does at the wrap: a joint is held against joints, a brick's middle against bricks. 100 at most; 0
 * where the picture is too small to say.
 */
export function inspectAxis(lines: SampledLines): number {
  if (lines.length < leastLength) return 0;
  const { alike, strangeness } = findPlaces(toProfile(lines));
  const curves = [
    ...lineWidths.map((width) => lineSteps(lines, width)),
    ...lightWidths.map((width) => lightSteps(lines, width)),
  ];
  // The worst of several widths is taken at the wrap, so it is inside too.
  const worst = new Float64Array(lines.length);
  let grain = 1e-6;
  for (const { width, steps } of curves) {
    const inside = alike.filter((place) => place >= width && place <= lines.length - width);
    const usual = percentile95(Float64Array.from(inside, (place) => steps[place]!));
    for (const place of [0, ...inside]) {
      worst[place] = Math.max(worst[place]!, steps[place]! / Math.max(usual, hidden * grain));
    }
    grain = Math.max(grain, usual);
  }
  const usual = percentile95(Float64Array.from(alike, (place) => worst[place]!));
  const step = worst[0]! / (unseen * Math.max(usual, 1e-6));
  return Math.min(mostScore, Math.max(step, strangeShare * strangeness));
}

function percentile95(values: Float64Array): number {
  return values.sort()[Math.floor(0.95 * (values.length - 1))] ?? 0;
}

// Root mean square over the lines.
function lineSteps(lines: SampledLines, width: number): StepCurve {
  const { count, length } = lines;
  const steps = new Float64Array(length);
  const line = new Float64Array(length);
  for (let at = 0; at < count; at++) {
    stepsOf(lines.samples.subarray(at * length, (at + 1) * length), width, line);
    for (let place = 0; place < length; place++) steps[place]! += line[place]! * line[place]!;
  }
  for (let place = 0; place < length; place++) steps[place] = Math.sqrt(steps[place]! / count);
  return { width, steps };
}

// Mean over the lines, whichever way it goes.
function lightSteps(lines: SampledLines, width: number): StepCurve {
  const { count, length } = lines;
  const steps = new Float64Array(length);
  const line = new Float64Array(length);
  for (let at = 0; at < count; at++) {
    stepsOf(lines.samples.subarray(at * length, (at + 1) * length), width, line);
    for (let place = 0; place < length; place++) steps[place]! += line[place]!;
  }
  for (let place = 0; place < length; place++) steps[place] = Math.abs(steps[place]!) / count;
  return { width, steps };
}

// At each place, the mean of so many samples after it less the mean of those before, around the end.
function stepsOf(line: Float32Array, width: number, out: Float64Array): Float64Array {
  const length = line.length;
  let before = 0;
  let after = 0;
  for (let i = 0; i < width; i++) {
    before += line[length - 1 - i]!;
    after += line[i]!;
  }
  for (let place = 0; place < length; place++) {
    out[place] = (after - before) / width;
    const here = line[place]!;
    after += line[(place + width) % length]! - here;
    before += here - line[(place - width + length) % length]!;
  }
  return out;
}
