import type { Profile } from './find-places.js';
import { type Drift, judgeDrift } from './judge-drift.js';
import type { ColourLines } from './sample-colours.js';
import { slabLevels } from './slab-levels.js';
import { meanSteps } from './step-curves.js';
import { usualValues } from './usual-values.js';

/** How light and colour go on over a picture's wrap: 1 is the border. */
export interface LightJudgement {
  /** Of lightness. */
  readonly light: number;
  /** Of colour without lightness. */
  readonly colour: number;
}

/** What else is known of the picture. */
export interface LightOptions {
  /** Its lines along the axis. */
  readonly lines: ColourLines;
  /** Places inside that look as the wrap does. */
  readonly alike: Int32Array;
  /** Places from course to course, or null where nothing repeats. */
  readonly period: number | null;
  /** Usual step from line to line inside: a change of light that is small beside it hides in it. */
  readonly grain: number;
}

// Places on each side: next to the wrap, where only places count that look as it does.
const nearWidths = [2, 8] as const;
// Whole courses, or without any so many places, where every place counts; as far as the picture allows.
const courses = [1, 2, 4] as const;
const wideWidths = [16, 32, 64, 128, 256] as const;
const widestShare = 5;

// Units of CIE 1976 colour difference that nobody sees all along a seam.
const leastLight = 0.6;
const leastColour = 0.8;
// A slow drift of colour is seen later than a step: from 2.3 on between patches side by side (M. Mahy,
// L. Van Eycken and A. Oosterlinck, Color Research and Application 19 (1994)), of bricks a little
// earlier all along a seam.
const leastColourDrift = 1.5;
const hidden = 0.2;
// Slabs in which a drift is looked for: courses, or so many where there are none.
const usualSlabs = 24;
const leastSlabs = 5;
// What is left of waves passes for a drift more often.
const lumpy = 1.5;
// A step in one of many that were tried.
const unseen = 1.45;

/**
 * Judge the steps of light and of colour across a picture's wrap, at several widths.
 *
 * @param profile - Of the picture along an axis.
 * @param options - What else is known of it.
 * @returns The worst of each.
 */
export function judgeLight(profile: Profile, options: LightOptions): LightJudgement {
  const { lines, alike, period, grain } = options;
  const { length } = profile.spreads;
  const wide = period === null ? wideWidths : courses.map((count) => Math.round(count * period));
  const least = {
    light: Math.max(leastLight, hidden * grain),
    colour: Math.max(leastColour, hidden * grain),
  };
  let [light, colour] = [0, 0];
  for (const width of nearWidths) {
    const [l, a, b] = stepsOf(profile, width);
    const places = alike.filter((place) => place >= width && place <= length - width);
    const apart = Math.max(3, width);
    light = Math.max(light, over(l.map(Math.abs), places, { apart, least: least.light }));
    const chroma = l.map((_, place) => Math.hypot(a[place]!, b[place]!));
    colour = Math.max(colour, over(chroma, places, { apart, least: least.colour }));
  }
  for (const width of wide) {
    if (width < 8 || width > length / widestShare) continue;
    const [l, a, b] = stepsOf(profile, width);
    const places = Int32Array.from({ length: length - 2 * width + 1 }, (_, at) => width + at);
    const by = { apart: width, least: least.light };
    light = Math.max(light, beyond(l, places, by));
    const one = beyond(a, places, { ...by, least: least.colour });
    const other = beyond(b, places, { ...by, least: least.colour });
    colour = Math.max(colour, one, other);
  }
  const [l, a, b] = lines.planes.map((plane) => driftOf(plane, length, period));
  return {
    light: Math.max(light / unseen, overLeast(l ?? [], least.light)),
    colour: Math.max(
      colour / unseen,
      overLeast([...(a ?? []), ...(b ?? [])], Math.max(leastColourDrift, least.colour)),
    ),
  };
}

// Bricks are laid one as likely as another, course by course; lumps of gravel make waves.
function driftOf(plane: Float32Array, length: number, period: number | null): Drift[] {
  const courses = period === null ? 0 : Math.round(length / period);
  const isCoursed = courses >= leastSlabs;
  const count = isCoursed ? courses : usualSlabs;
  const waves = isCoursed ? 0 : 2;
  const doubt = isCoursed ? 1 : lumpy;
  return slabLevels(plane, length, count).map((levels) => {
    const { step, spread } = judgeDrift(levels, waves);
    return { step, spread: doubt * spread };
  });
}

function overLeast(drifts: readonly Drift[], least: number): number {
  return Math.max(...drifts.map(({ step, spread }) => Math.abs(step) / Math.max(spread, least)));
}

interface Bounds {
  readonly apart: number;
  readonly least: number;
}

function stepsOf(
  { means: [lightness, a, b] }: Profile,
  width: number,
): readonly [Float64Array, Float64Array, Float64Array] {
  return [meanSteps(lightness, width), meanSteps(a, width), meanSteps(b, width)];
}

function over(steps: Float64Array, places: Int32Array, { apart, least }: Bounds): number {
  const values = Float64Array.from(places, (place) => steps[place]!);
  return steps[0]! / Math.max(usualValues(values, places, apart).most, least);
}

// Either way from the mean, which is what light that falls off steadily adds to every step.
function beyond(steps: Float64Array, places: Int32Array, { apart, least }: Bounds): number {
  const values = Float64Array.from(places, (place) => steps[place]!);
  const usual = usualValues(values, places, apart);
  const off = steps[0]! - usual.mean;
  return (
    Math.abs(off) / Math.max(off > 0 ? usual.most - usual.mean : usual.mean - usual.least, least)
  );
}
