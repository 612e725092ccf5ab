import { outOfRange } from '../errors/out-of-range.js';
import type { Outcome } from '../errors/outcome.js';
import type { PerAxis } from '../surface/measurement.js';
import { dpi, type Dpi, printMm, px, type Px, toDots } from '../units/units.js';
import { roundPeriod } from './round-period.js';

/** What one axis of a photo offers a tile. */
export interface AxisToPlan {
  /** Photo pixels along it. */
  readonly length: number;
  /** One bond repeat in photo pixels, seldom whole; null where nothing repeats. */
  readonly repeat: number | null;
  /** Where nothing repeats: the photo pixels after which it is most like itself, if known. */
  readonly period?: number | null;
  /**
   * Photo pixels in which there is a joint everywhere, a brick or a course: so much is best left over to
   * cut in. A repeat unless told.
   */
  readonly unit?: number | null;
  /** Printed dots per photo pixel. */
  readonly factor: number;
  /** Whether the photo wraps already, so that all of it is the tile. */
  readonly seamless: boolean;
}

/** One axis of a tile, planned. */
export interface AxisPlan {
  /** Bond repeats taken from the photo, or null where nothing repeats. */
  readonly repeats: number | null;
  /** How often they are laid side by side in the tile, so that it ends on a whole pixel. */
  readonly copies: number;
  /** The tile in printed dots: a whole number. */
  readonly period: Px;
  /** Printed size over true size, less 1. */
  readonly scaleError: number;
  /** By how many dots courses are off at the end of an A3 page. */
  readonly drift: number;
  /** The raster to mend: how many pixels the wanted repeats have in it, a whole number. */
  readonly workPeriod: Px;
  /** The raster to mend: its pixels per photo pixel. */
  readonly workFactor: number;
}

/** What a caller may ask of {@link planTile}. */
export interface PlanTileOptions {
  /** Least share of the photo's area to use, in per cent; 60 unless told. */
  readonly keep?: number;
  /** Largest scale error either way, as a fraction: 0.001 is 0.1 %, the default. */
  readonly tolerance?: number;
  /** Print resolution, by which drift over a page counts in dots; 600 unless told. */
  readonly resolution?: Dpi;
}

/** The long side of an A3 page, in mm (ISO 216), at whose end drift is counted. */
export const pageMm = 420;
// Dots that a good tile may drift over that page.
const mostDrift = 0.5;
// Longer tiles cost more memory and time than a smaller drift is worth.
const longestTile = 3000;
// Copies past this cost no more in a choice of plans: they are the same pixels again.
const mostCounted = 5;
// Of a photo in which nothing repeats, this much is overlap to cut in.
const freeOverlap = 1 / 8;

/**
 * Plan a tile: how many bond repeats of the photo it holds and how many dots that is, such that
 * its period is whole, its scale true, and enough of the photo is left over to mend the seam in.
 *
 * @param photo - What the photo offers along x and y.
 * @param options - How much to keep, how true to be.
 * @returns The plan, or that the photo holds less than one repeat.
 * @throws RangeError when a number makes no sense.
 */
export function planTile(
  photo: PerAxis<AxisToPlan>,
  options: PlanTileOptions = {},
): Outcome<PerAxis<AxisPlan>, 'too-few-repeats'> {
  const { keep = 60, tolerance = 0.001, resolution = dpi(600) } = options;
  if (!(keep >= 0 && keep <= 100)) throw outOfRange('0 to 100 per cent', 'keep', keep);
  if (!(tolerance > 0)) throw outOfRange('a fraction above 0', 'tolerance', tolerance);
  const pageDots = toDots(printMm(pageMm), resolution);
  const ask = { keep: Math.sqrt(keep / 100), tolerance, pageDots };
  const x = planAxis(photo.x, ask);
  const y = planAxis(photo.y, ask);
  if (x === null || y === null) {
    const [which, held] = x === null ? ['side by side', photo.x] : ['one above the other', photo.y];
    const share = Math.floor((100 * held.length) / (held.repeat ?? held.length));
    return {
      ok: false,
      code: 'too-few-repeats',
      message: `this photo holds ${share} % of one repeat of the bond ${which}; a tile needs a whole one`,
      hint: 'use a photo that shows more of the wall',
    };
  }
  return { ok: true, value: { x, y }, warnings: [] };
}

interface Ask {
  // Least share of the axis to keep.
  readonly keep: number;
  readonly tolerance: number;
  // Over so many dots a good tile drifts by half a one at most.
  readonly pageDots: number;
}

function planAxis(axis: AxisToPlan, ask: Ask): AxisPlan | null {
  const { length, repeat, factor, seamless } = axis;
  checkAxis(axis);
  if (seamless) {
    const repeats = repeat === null ? null : Math.max(1, Math.round(length / repeat));
    return roundAxis({ span: length, repeats, factor }, ask);
  }
  if (repeat === null) return planFree(axis);
  return planRepeats({ length, repeat, factor, unit: axis.unit ?? repeat }, ask);
}

function checkAxis({ length, repeat, factor }: AxisToPlan): void {
  for (const value of [length, repeat ?? 1, factor]) {
    if (!(value > 0 && value < Infinity)) {
      throw outOfRange('a finite number above 0', 'axis', value);
    }
  }
}

function planFree({ length, period, factor }: AxisToPlan): AxisPlan {
  const span = Math.min(length, period ?? length * (1 - freeOverlap));
  const dots = px(Math.max(1, Math.floor(span * factor)));
  const whole = { copies: 1, period: dots, scaleError: 0, drift: 0 };
  if (factor <= 1) return { repeats: null, ...whole, workPeriod: dots, workFactor: factor };
  const workPeriod = px(Math.max(1, Math.floor(span)));
  return { repeats: null, ...whole, workPeriod, workFactor: (workPeriod * factor) / dots };
}

interface RepeatsToPlan {
  readonly length: number;
  readonly repeat: number;
  readonly factor: number;
  readonly unit: number;
}

function planRepeats({ length, repeat, factor, unit }: RepeatsToPlan, ask: Ask): AxisPlan | null {
  const held = length / repeat;
  // A photo cut to one repeat is measured a hair longer or shorter.
  if (held < 1) return held > 0.995 ? roundAxis({ span: length, repeats: 1, factor }, ask) : null;
  const most = Math.floor(held);
  let best = roundAxis({ span: most * repeat, repeats: most, factor }, ask);
  const over = (repeats: number): number => ((held - repeats) * repeat) / unit;
  let least = priceOf(best, { lost: 1 - most / held, over: over(most) }, ask);
  for (let repeats = most - 1; repeats >= ask.keep * held; repeats--) {
    const plan = roundAxis({ span: repeats * repeat, repeats, factor }, ask);
    const price = priceOf(plan, { lost: 1 - repeats / held, over: over(repeats) }, ask);
    if (price < least) [best, least] = [plan, price];
  }
  return best;
}

// What a plan costs: photo thrown away, too little overlap to mend in, drift, and a longer tile.
function priceOf(
  { scaleError, copies }: AxisPlan,
  { lost, over }: { readonly lost: number; readonly over: number },
  { pageDots }: Ask,
): number {
  const short = Math.max(0, 1 - over);
  const good = Math.abs(scaleError) * pageDots <= mostDrift;
  const again = Math.min(copies - 1, mostCounted);
  return lost + 0.3 * short * short + (good ? 0 : 0.2) + 0.04 * again;
}

interface Span {
  // Photo pixels that are to become one tile, or one of its copies.
  readonly span: number;
  readonly repeats: number | null;
  readonly factor: number;
}

function roundAxis({ span, repeats, factor }: Span, ask: Ask): AxisPlan {
  const exact = span * factor;
  const { copies, period, scaleError } = roundWell(px(Math.max(1, exact)), ask);
  const drift = Math.abs(scaleError) * ask.pageDots;
  const workPeriod = px(Math.max(1, Math.round(workLength(exact, factor, copies))));
  return { repeats, copies, period, scaleError, drift, workPeriod, workFactor: workPeriod / span };
}

// What is resampled once more after mending, several copies as one, is mended at 1.6 times the dots
// where the photo has them, so that nothing is softened. And no photo is mended finer than it is:
// that would cost much and show nothing more.
function workLength(exact: number, factor: number, copies: number): number {
  if (factor > 1) return exact / factor;
  return copies > 1 ? exact * Math.min(1.6, 1 / factor) : exact;
}

function roundWell(
  exact: Px,
  { tolerance, pageDots }: Ask,
): { copies: number; period: Px; scaleError: number } {
  const within = roundPeriod(exact, { tolerance });
  let best = { copies: within.repeats, period: within.period, scaleError: within.scaleError };
  for (let copies = best.copies; copies * exact <= longestTile; copies++) {
    const period = Math.round(copies * exact);
    const scaleError = period / (copies * exact) - 1;
    if (Math.abs(scaleError) * pageDots <= mostDrift) {
      return { copies, period: px(period), scaleError };
    }
    if (Math.abs(scaleError) < 0.5 * Math.abs(best.scaleError)) {
      best = { copies, period: px(period), scaleError };
    }
  }
  return best;
}
