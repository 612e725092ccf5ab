import { cropRaster } from '../../raster/crop-raster.js';
import type { Raster } from '../../raster/raster.js';
import { alignOverlap } from './align-overlap.js';
import { chooseJoin, type JudgedJoin } from './choose-join.js';
import { findBorder } from './find-border.js';
import type { JoinMethod } from './join-overlap.js';
import { inBoth } from './in-both.js';
import type { JoinedAxis } from './origin-of.js';
import { type Overlap, type OverlapWindow, putOverlap, takeOverlap } from './overlap.js';
import { sampleLines } from '../inspect/sample-lines.js';
import { type Joints, seeJoints } from './see-joints.js';

/** How one axis is to be mended. */
export interface MendAxisOptions {
  /** Which. */
  readonly axis: 'x' | 'y';
  /** Pixels after which the result repeats: whole, at most the picture's length. */
  readonly period: number;
  /** One bond repeat in pixels, or null. */
  readonly repeat: number | null;
  /** Whether the picture already meets itself along the other axis, and must go on to. */
  readonly closed: boolean;
  /** Where its courses lie, or null where it has none. */
  readonly joints: Joints | null;
  /** Ways to join the ends, of which the one that shows least is taken: one or more. */
  readonly methods: readonly JoinMethod[];
  /** Whether its own planes may be written to; not unless told. */
  readonly inPlace?: boolean;
}

/** A picture that repeats along one axis. */
export interface MendedAxis {
  /** `period` pixels along it. */
  readonly raster: Raster;
  /** The pixel of the picture that became its first. */
  readonly start: number;
  /**
   * How its ends were joined, and what else was tried, from better to worse: with nothing left over
   * there is nothing to cut in.
   */
  readonly tried: readonly JudgedJoin[];
  /** Where the border runs; null where its ends were not joined. */
  readonly joined: JoinedAxis | null;
}

// Under this, an overlap offers no choice of cut.
const leastOverlap = 4;
// Over this, a wider one costs much (the membrane's time grows with its square) and gains nothing.
const mostOverlap = 256;
// A correction of light fades out over as much as this past the overlap.
const widestMargin = 12;

/**
 * Make a picture repeat along one axis.
 *
 * @param raster - In linear light, evenly lit, left as it is unless told.
 * @param options - Which axis, after how much, and how.
 * @returns A raster of its own, or rows of the picture's where that may be written to.
 */
export function mendAxis(raster: Raster, options: MendAxisOptions): MendedAxis {
  const { axis, period, repeat, closed, joints, methods } = options;
  const length = axis === 'x' ? raster.width : raster.height;
  const cuts = length - period >= leastOverlap;
  const wanted = Math.min(mostOverlap, Math.max(16, Math.round(repeat ?? length / 6)));
  const overlap = cuts ? Math.min(length - period, wanted, period >> 1) : 0;
  const start = cuts ? bestStart(raster, { axis, period, overlap }) : 0;
  const tile = takePeriod(raster, start, options);
  const margin = Math.min(widestMargin, (period - overlap) >> 1);
  const asked: readonly JoinMethod[] = cuts ? methods : ['gradient'];
  const left = !cuts && methods.every((method) => method === 'cut');
  if (left || margin < 1) return { raster: tile, start, tried: [], joined: null };
  const window = { axis, start, period, overlap, margin };
  const level = takeOverlap(raster, window);
  const { windows, mortar } =
    joints && cuts
      ? alignJoints(raster, level, { window, joints, closed })
      : { windows: level, mortar: null };
  const border = findBorder(windows, mortar, closed);
  const halfBrick = halfBrickIn(joints, axis);
  const { joined, tried } = chooseJoin(windows, { methods: asked, border, closed, halfBrick });
  putOverlap(tile, windows, joined, axis);
  const line = border.map((column) => column - margin);
  return { raster: tile, start, tried, joined: { start, period, overlap, border: line } };
}

function takePeriod(
  raster: Raster,
  start: number,
  { axis, period, inPlace = false }: MendAxisOptions,
): Raster {
  const { width, height, planes } = raster;
  if (axis === 'x') return cropRaster(raster, { x: start, y: 0, width: period, height });
  if (!inPlace) return cropRaster(raster, { x: 0, y: start, width, height: period });
  // Rows lie together: nothing need be copied.
  const rows = (plane: Float32Array): Float32Array =>
    plane.subarray(start * width, (start + period) * width);
  return { width, height: period, planes: [rows(planes[0]), rows(planes[1]), rows(planes[2])] };
}

interface JointsToAlign {
  readonly window: OverlapWindow;
  readonly joints: Joints;
  readonly closed: boolean;
}

function alignJoints(
  raster: Raster,
  level: Overlap,
  { window, joints, closed }: JointsToAlign,
): { readonly windows: Overlap; readonly mortar: Float32Array } {
  const { start, period } = window;
  const seen = {
    windows: level,
    ending: seeJoints(raster, { ...window, first: start + period }, joints),
    beginning: seeJoints(raster, { ...window, first: start }, joints),
  };
  const { windows, ending, beginning } = alignOverlap(seen, closed);
  return { windows, mortar: inBoth(ending.likeness, beginning.likeness, windows) };
}

function halfBrickIn(joints: Joints | null, axis: 'x' | 'y'): PerWindow {
  const half = joints?.brick == null ? null : joints.brick / 2;
  return joints?.axis === axis ? { along: null, across: half } : { along: half, across: null };
}

interface PerWindow {
  readonly along: number | null;
  readonly across: number | null;
}

interface Fit {
  readonly axis: 'x' | 'y';
  readonly period: number;
  readonly overlap: number;
}

// Where the picture and itself one period further are most alike, over a whole overlap.
function bestStart(raster: Raster, { axis, period, overlap }: Fit): number {
  const { count, length, samples } = sampleLines(raster, axis, 256);
  const room = length - period;
  const unlike = new Float64Array(room);
  for (let line = 0; line < count; line++) {
    const start = line * length;
    for (let x = 0; x < room; x++) {
      const step = samples[start + x]! - samples[start + x + period]!;
      unlike[x]! += step * step;
    }
  }
  let sum = 0;
  for (let x = 0; x < overlap; x++) sum += unlike[x]!;
  let start = 0;
  let least = sum;
  for (let x = 1; x + overlap <= room; x++) {
    sum += unlike[x + overlap - 1]! - unlike[x - 1]!;
    if (sum < least) [start, least] = [x, sum];
  }
  return start;
}
