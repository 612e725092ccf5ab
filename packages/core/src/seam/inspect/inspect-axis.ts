import { findPlaces, toProfile } from './find-places.js';
import { findPeriods } from './find-period.js';
import { fitCourses } from './fit-courses.js';
import { judgeJoints } from './judge-joints.js';
import type { InspectedSeam } from './inspected-seam.js';
import { judgeLight } from './judge-light.js';
import { judgeMirror } from './judge-mirror.js';
import type { Look } from './look-smaller.js';
import { quantile } from './quantile.js';
import { sampleColours } from './sample-colours.js';
import { lineSteps, type StepCurve } from './step-curves.js';
import { toBands } from './to-bands.js';
import { usualValues } from './usual-values.js';
import { whenAsked } from './when-asked.js';

/** Shorter than this, a picture has no inside to compare with. */
export const leastLength = 32;
// Enough that a seam across some of them is not missed.
const mostLines = 192;
// Line by line, where a random cut shows; a second width, so that blur at an edge hides nothing.
const lineWidths = [1, 2] as const;
// Units of CIE 1976 colour difference that nobody sees, line by line.
const leastStep = 0.5;
// One of several widths is past its usual bound more often than one alone.
const unseen = 1.15;
// The share of the picture at each end that its change of light is told by.
const endShare = 8;
// How strange a wrap must look before it counts as a step.
const strangeShare = 0.4;
// A part by itself is seen past this share of its own border; courses that do not fit, sooner.
const alone = 1.4;
const misfit = 1.2;
// All parts together are worse than any of them, but for rounding.
const surely = 1.001;
// Where nothing steps inside, any step across the wrap is past all measure.
const mostScore = 100;

/** Of a picture too small to tell: nobody knows that it meets itself, so nobody is to count on it. */
export const unknownSeam: InspectedSeam = {
  seamScore: 0,
  seamless: false,
  steps: 0,
  light: 0,
  colour: 0,
  joints: 0,
  mirror: 0,
  lightStep: 0,
  colourStep: 0,
  brokenBy: null,
  courseOff: null,
};

/** What is told of a wrap. */
export const seamParts = Object.keys(unknownSeam) as (keyof InspectedSeam)[];

/**
 * Score how well a picture meets itself along an axis: what is found at the wrap is held against
 * places inside that look as it does there, a joint against joints, a brick's middle against bricks.
 * Where pixels that step or courses that do not fit give the wrap away, as in most photos, the rest is
 * looked for when it is asked for.
 *
 * @param look - At the picture, not to be changed while anything may still be asked.
 * @param axis - `x` to hold its right side against its left.
 * @returns The scores; 0, and not seamless, where the picture is too small to say.
 */
export function inspectAxis(look: Look, axis: 'x' | 'y'): InspectedSeam {
  const lines = sampleColours(look.raster, axis, mostLines);
  if (lines.length < leastLength) return unknownSeam;
  const profile = toProfile(lines);
  const places = findPlaces(profile);
  const edges = lineWidths.map((width) => lineSteps(lines, width));
  const steps = scoreSteps(edges, places.alike, leastStep) / alone;
  const { curves, step } = toBands(lines);
  const periods = findPeriods(curves);
  const courses = fitCourses(curves, periods);
  const isSurelySeen = Math.max(steps, courses.score / misfit) > surely;
  const seen = { lines, profile, places, edges, steps, periods, step, courses };
  return whenAsked(
    () => inspectAll(look, axis, seen),
    seamParts,
    isSurelySeen ? { seamless: false } : {},
  );
}

// What of a wrap is looked at first.
interface SeenFirst {
  readonly lines: ReturnType<typeof sampleColours>;
  readonly profile: ReturnType<typeof toProfile>;
  readonly places: ReturnType<typeof findPlaces>;
  readonly edges: readonly StepCurve[];
  // Their score.
  readonly steps: number;
  readonly periods: readonly number[];
  // Lines that the periods are counted in.
  readonly step: number;
  readonly courses: ReturnType<typeof fitCourses>;
}

function inspectAll(
  { raster, times }: Look,
  axis: 'x' | 'y',
  { lines, profile, places, edges, steps, periods, step, courses }: SeenFirst,
): InspectedSeam {
  const { alike, strangeness } = places;
  const grain = Math.max(...edges.map((curve) => usualStep(curve, alike)));
  const period = periods[0] === undefined ? null : periods[0] * step;
  const { light, colour } = judgeLight(profile, { lines, alike, period, grain });
  const through = judgeJoints(raster, axis, alike);
  const parts = [
    steps,
    light / alone,
    colour / alone,
    together([through.score, courses.score, strangeShare * strangeness]) / misfit,
  ].map((part) => Math.min(mostScore, part));
  const seamScore = Math.min(mostScore, together(parts));
  const [lightStep, colourStep] = broadSteps(
    profile.means,
    Math.max(8, Math.floor(lines.length / endShare)),
  );
  return {
    seamScore,
    seamless: seamScore <= 1,
    steps: parts[0] ?? 0,
    light: parts[1] ?? 0,
    colour: parts[2] ?? 0,
    joints: parts[3] ?? 0,
    mirror: judgeMirror(lines),
    lightStep,
    colourStep,
    brokenBy: inPixels(through.shift, times[axis === 'x' ? 'y' : 'x']),
    courseOff: inPixels(courses.misfit, step * times[axis]),
  };
}

function inPixels(length: number | null, times: number): number | null {
  return length === null ? null : length * times;
}

// What nobody would see alone is seen where there is more of it: the worst counts most.
function together(scores: readonly number[]): number {
  return Math.cbrt(scores.reduce((sum, score) => sum + score ** 3, 0));
}

function usualStep({ width, steps }: StepCurve, alike: Int32Array): number {
  const inside = alike.filter((place) => place >= width && place <= steps.length - width);
  return quantile(
    Float64Array.from(inside, (place) => steps[place]!),
    0.95,
  );
}

// The worst of several widths.
function scoreSteps(curves: readonly StepCurve[], alike: Int32Array, least: number): number {
  let worst = 0;
  for (const { width, steps } of curves) {
    const inside = alike.filter((place) => place >= width && place <= steps.length - width);
    const values = Float64Array.from(inside, (place) => steps[place]!);
    const { most } = usualValues(values, inside, Math.max(3, width));
    worst = Math.max(worst, steps[0]! / (unseen * Math.max(most, least)));
  }
  return worst;
}

function broadSteps(
  means: readonly [Float64Array, Float64Array, Float64Array],
  width: number,
): readonly [number, number] {
  const [lightness, a, b] = means.map(
    (values) => meanOf(values.subarray(0, width)) - meanOf(values.subarray(values.length - width)),
  );
  return [lightness ?? 0, Math.hypot(a ?? 0, b ?? 0)];
}

function meanOf(values: Float64Array): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum / values.length;
}
