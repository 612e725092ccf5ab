import type { Raster } from '../../raster/raster.js';

/** Level courses in a picture, in its pixels. */
export interface Courses {
  /** Bed joint to bed joint. */
  readonly course: number;
  /** Where one bed joint lies. */
  readonly offset: number;
}

/** How much of a picture is like its mortar. */
export interface Mortar {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** 0 like its bricks, 1 like its bed joints; from -0.5 to 1.5, row by row. */
  readonly likeness: Float32Array;
  /** A joint's width in pixels. */
  readonly joint: number;
}

// Shares of a course, from the middle of a bed joint: what is surely joint, what surely is not.
const inJoint = 0.06;
const inBrick = 0.28;
const bins = 64;

/** The line of colours from a picture's bricks to its mortar. */
export interface MortarLine {
  /** What each channel's square roots count for: red, green, blue. */
  readonly weights: readonly [number, number, number];
  /** Where its bricks lie on it; its mortar lies 1 further on. */
  readonly brick: number;
}

/**
 * Tell mortar from brick by colour: along the line on which the two differ most for how much bricks
 * differ among themselves.
 *
 * @param raster - Level, in linear light.
 * @param courses - Where its bed joints lie, at least nearly.
 * @returns How like mortar each pixel is, and how wide joints are.
 */
export function seeMortar(raster: Raster, courses: Courses): Mortar {
  const { width, height } = raster;
  const line = findMortarLine(raster, courses);
  if (line === null) {
    const likeness = new Float32Array(width * height);
    return { width, height, likeness, joint: 0.13 * courses.course };
  }
  const likeness = likenessAlong(raster, line);
  const joint = widthOf(likeness, phasesOf(height, courses), courses.course);
  return { width, height, likeness, joint };
}

/**
 * Find the line on which mortar and bricks differ most.
 *
 * @param raster - Level, in linear light.
 * @param courses - Where its bed joints lie, at least nearly.
 * @returns The line, or null where bed joints look as bricks do.
 * @see Fisher 1936, The use of multiple measurements in taxonomic problems
 */
export function findMortarLine(raster: Raster, courses: Courses): MortarLine | null {
  const { width, height, planes } = raster;
  const phases = phasesOf(height, courses);
  const lines = planes.map((plane) => toLine(plane, width, phases));
  const gain = lines.reduce((sum, { slope, step }) => sum + slope * step, 0);
  if (!(gain > 0)) return null;
  const weights = lines.map(({ slope }) => slope / gain) as [number, number, number];
  const brick = lines.reduce((sum, line, channel) => sum + weights[channel]! * line.brick, 0);
  return { weights, brick };
}

/**
 * Tell how far along a line of colours each pixel lies.
 *
 * @param raster - In linear light; such light as the line was found in.
 * @param line - From bricks to mortar.
 * @returns 0 like the bricks, 1 like the mortar; from -0.5 to 1.5, row by row.
 */
export function likenessAlong(raster: Raster, line: MortarLine): Float32Array {
  const [p, q, r] = line.weights;
  const [red, green, blue] = raster.planes;
  const likeness = new Float32Array(red.length);
  for (let i = 0; i < likeness.length; i++) {
    const one = p * Math.sqrt(Math.max(0, red[i]!)) + q * Math.sqrt(Math.max(0, green[i]!));
    const value = one + r * Math.sqrt(Math.max(0, blue[i]!)) - line.brick;
    likeness[i] = value < -0.5 ? -0.5 : value > 1.5 ? 1.5 : value;
  }
  return likeness;
}

function phasesOf(height: number, courses: Courses): Float64Array {
  return Float64Array.from({ length: height }, (_, y) => phaseOf(y, courses));
}

// 0 in the middle of a bed joint, half way between two 0.5.
function phaseOf(y: number, { course, offset }: Courses): number {
  const place = (y + 0.5 - offset) / course;
  return Math.abs(place - Math.round(place));
}

interface Line {
  readonly brick: number;
  readonly step: number;
  readonly slope: number;
}

function toLine(plane: Float32Array, width: number, phases: Float64Array): Line {
  let [joints, jointSum, bricks, brickSum, squares] = [0, 0, 0, 0, 0];
  for (let y = 0; y < phases.length; y++) {
    const phase = phases[y]!;
    const start = y * width;
    if (phase <= inJoint) {
      for (let i = start; i < start + width; i++) jointSum += Math.sqrt(Math.max(0, plane[i]!));
      joints += width;
    } else if (phase >= inBrick) {
      for (let i = start; i < start + width; i++) {
        const light = Math.max(0, plane[i]!);
        brickSum += Math.sqrt(light);
        squares += light;
      }
      bricks += width;
    }
  }
  if (joints === 0 || bricks === 0) return { brick: 0, step: 0, slope: 0 };
  const brick = brickSum / bricks;
  const step = jointSum / joints - brick;
  const spread = squares / bricks - brick * brick + 1e-4;
  return { brick, step, slope: step / spread };
}

function widthOf(likeness: Float32Array, phases: Float64Array, course: number): number {
  const sums = new Float64Array(bins);
  const counts = new Float64Array(bins);
  const width = likeness.length / phases.length;
  for (let y = 0; y < phases.length; y++) {
    const bin = Math.min(bins - 1, Math.floor(2 * bins * phases[y]!));
    counts[bin]! += width;
    for (let i = y * width; i < (y + 1) * width; i++) sums[bin]! += likeness[i]!;
  }
  const means = sums.map((sum, bin) => (counts[bin]! > 0 ? sum / counts[bin]! : NaN));
  const known = means.filter((mean) => !Number.isNaN(mean));
  const high = Math.max(...known.subarray(0, 4));
  const low = known[known.length - 1] ?? 0;
  const past = means.findIndex((mean) => mean < (high + low) / 2);
  const share = past < 0 ? 0.13 : past / bins;
  return course * Math.min(0.3, Math.max(0.06, share));
}
