import {
  createRows,
  hiddenNoise,
  listOctaves,
  type NoiseGround,
  type NoiseRows,
  type OctavesWish,
} from './octaves.js';
import type { NoiseRun } from './noise.js';
import type { Facing, WeatherStrengths } from './strengths.js';
import type { Veil } from './veil.js';

/** A place on the wall: real mm from the datum, right and down. */
export interface WallPoint {
  /** To the right. */
  readonly x: number;
  /** Down. */
  readonly y: number;
}

/** A line that water runs from. */
export interface Ledge {
  /** One end. */
  readonly from: WallPoint;
  /** The other. */
  readonly to: WallPoint;
}

/** What is weathered, and all that is known of it. */
export interface WeatherSite {
  /** How strong each kind is. */
  readonly strengths: WeatherStrengths;
  /** The wall as its noise knows it. */
  readonly ground: NoiseGround;
  /** Which way it looks, or null where nobody said. */
  readonly facing: Facing | null;
  /** What water runs from. */
  readonly ledges: readonly Ledge[];
  /** Iron in the wall, or null for a little of it by chance. */
  readonly fixings: readonly WallPoint[] | null;
  /** Where the wall stands on the ground, mm below the datum, or null where it stands nowhere. */
  readonly foot: number | null;
  /** Whether it is laid without mortar. */
  readonly isDry: boolean;
  /** Its places, row by row. */
  readonly run: NoiseRun;
}

/** One row of places, and what of the wall is round each of them. */
export interface WeatherRow {
  /** Where they lie, mm below the datum. */
  readonly y: number;
  /** Millimetres below the ledge above each, or Infinity. */
  readonly fall: Float32Array;
  /** Millimetres above the ledge below each, or Infinity. */
  readonly rise: Float32Array;
  /** The least of `fall`. */
  readonly leastFall: number;
  /** The least of `rise`. */
  readonly leastRise: number;
  /** How near the end of the ledge above each lies, 0 to 1. */
  readonly end: Float32Array;
  /** Where dirt lies and where the wall is clean, in standard deviations: several layers go by it. */
  readonly dirt: Float32Array;
  /** How much of each was mended of late, 0 to 1. */
  readonly mended: Float32Array;
}

/** Lays one kind of weather on a row. */
export type WeatherLayer = (row: WeatherRow, veil: Veil) => void;

/**
 * Ready what a layer covers of a row.
 *
 * @param site - Its places.
 * @returns A number a place, to be filled row by row.
 */
export function createCover(site: WeatherSite): Float32Array {
  return new Float32Array(site.run.count);
}

/**
 * Ready noise for a layer.
 *
 * @param site - Its wall and its places.
 * @param wish - Which noise.
 * @returns Its rows.
 */
export function rowNoise(site: WeatherSite, wish: OctavesWish): NoiseRows {
  return createRows(listOctaves(site.ground, wish), site.run);
}

/**
 * Noise that depends on how far to the right a place lies alone.
 *
 * @param site - Its wall and its places.
 * @param wish - Which noise.
 * @returns One value a place.
 */
export function columnNoise(site: WeatherSite, wish: OctavesWish): Float32Array {
  return rowNoise(site, wish)(0);
}

/** A step over noise, were all of that noise shown. */
interface SharpStep {
  /** How wide it is. */
  readonly width: number;
  /** How much of the noise is added to what is compared; 1 unless told. */
  readonly times?: number;
}

/** A step that rises smoothly from 0 to 1. */
export interface SoftStep {
  /** How wide it is. */
  readonly wide: number;
  /** How far before its place it begins: half of what it is wider than was asked for. */
  readonly early: number;
}

/**
 * Soften a step over noise by what of that noise is too fine for the wall's places: a place is then covered as much
 * as its parts would be on the whole. What is shown coarsely keeps its mean, and two scales of a wall agree.
 *
 * @param ground - The wall and its places.
 * @param wish - The noise that decides where the step lies.
 * @param step - It.
 * @returns The step, for {@link rise}.
 */
export function softenStep(ground: NoiseGround, wish: OctavesWish, step: SharpStep): SoftStep {
  const { width, times = 1 } = step;
  // The slope of a smooth step is a density of variance width^2 / 20; variances of a density and of noise add up.
  const wide = Math.sqrt(width ** 2 + 20 * (times * hiddenNoise(ground, wish)) ** 2);
  return { wide, early: (wide - width) / 2 };
}

/**
 * Rise over a step that was softened.
 *
 * @param step - It.
 * @param value - What goes up it: were it as sharp as was asked for, from 0 to its width.
 * @returns 0 to 1.
 */
export function rise(step: SoftStep, value: number): number {
  return smooth((value + step.early) / step.wide);
}

/**
 * Rise from 0 to 1 without a kink.
 *
 * @param t - 0 or less is 0, 1 or more is 1.
 * @returns Smooth between.
 */
export function smooth(t: number): number {
  return t <= 0 ? 0 : t >= 1 ? 1 : t * t * (3 - 2 * t);
}
