import { createRaster, type Raster } from '../../raster/raster.js';
import { toLevelPoint, toPhotoPoint } from '../../surface/level-point.js';
import type { Rectification } from '../../surface/measurement.js';
import type { Point } from '../../units/parse-point.js';
import type { Size } from '../../units/parse-size.js';

/** A picture made level, to look for joints in; not to be printed. */
export interface LevelPicture {
  /** All that the photo shows, and around it what is nearest. */
  readonly raster: Raster;
  /** Where its left edge lies in the level picture, in pixels of `raster`. */
  readonly left: number;
  /** The same of its top edge. */
  readonly top: number;
  /** For each column, the rows that the photo shows: the first, and one past the last. */
  readonly shown: { readonly from: Int32Array; readonly to: Int32Array };
}

/** Of what photo, and how it is made level. */
export interface LevelOptions {
  /** How. */
  readonly rectification: Rectification;
  /** The photo, in pixels. */
  readonly size: Size<number>;
  /** Pixels of the photo to one of `raster`, each way. */
  readonly step: number;
  /** Where `raster` begins in the photo, in its own pixels. */
  readonly left: number;
  /** The same, down. */
  readonly top: number;
}

/** Pixels between the places that are worked out; between them the map is as good as straight. */
const grid = 16;
/** More pixels than this, times those of the photo, are a horizon that runs through it. */
const most = 3;

/**
 * Make a picture level, as fast as may be: by the four samples about each place.
 *
 * @param raster - The photo, made smaller by `step`.
 * @param options - How.
 * @returns The level picture, or null where the photo would not fit into a picture.
 */
export function levelRaster(raster: Raster, options: LevelOptions): LevelPicture | null {
  const box = findBox(raster, options);
  if (box === null) return null;
  const { left, top, width, height } = box;
  const out = createRaster(width, height);
  const from = new Int32Array(width).fill(height);
  const to = new Int32Array(width);
  const across = Math.ceil(width / grid) + 1;
  const above = new Float64Array(2 * across);
  const below = new Float64Array(2 * across);
  const line = new Float64Array(2 * across);
  const node = (nodes: Float64Array, row: number): void => {
    for (let i = 0; i < across; i++) {
      const point = { x: (left + i * grid) * options.step, y: (top + row) * options.step };
      const at = toPhotoPoint(options.rectification, options.size, point);
      nodes[2 * i] = at.x / options.step - options.left - 0.5;
      nodes[2 * i + 1] = at.y / options.step - options.top - 0.5;
    }
  };
  const places = newPlaces(width);
  for (let y = 0; y < height; y++) {
    const whole = y - (y % grid);
    if (y === whole) {
      node(above, whole);
      node(below, whole + grid);
    }
    // Middles of pixels.
    const part = (y - whole + 0.5) / grid;
    for (let i = 0; i < line.length; i++) line[i] = above[i]! + part * (below[i]! - above[i]!);
    findPlaces(raster, line, places);
    for (let x = 0; x < width; x++) {
      if (places.inside[x] === 0) continue;
      if (from[x] === height) from[x] = y;
      to[x] = y + 1;
    }
    for (const [channel, plane] of raster.planes.entries()) {
      sampleRow(plane, raster.width, places, out.planes[channel]!.subarray(y * width));
    }
  }
  return { raster: out, left, top, shown: { from, to } };
}

function findBox(
  raster: Raster,
  { rectification, size, step, left: x0, top: y0 }: LevelOptions,
): {
  left: number;
  top: number;
  width: number;
  height: number;
} | null {
  const xs: number[] = [];
  const ys: number[] = [];
  const near = nearness(rectification, size);
  for (let at = 0; at <= 1; at += 1 / 16) {
    const [x, y] = [(x0 + at * raster.width) * step, (y0 + at * raster.height) * step];
    const [right, foot] = [(x0 + raster.width) * step, (y0 + raster.height) * step];
    for (const point of [
      { x, y: y0 * step },
      { x, y: foot },
      { x: x0 * step, y },
      { x: right, y },
    ]) {
      const level = toLevelPoint(rectification, size, point);
      xs.push(level.x / step);
      ys.push(level.y / step);
      if (!(near(point) > 0.1)) return null;
    }
  }
  const [left, top] = [Math.floor(Math.min(...xs)), Math.floor(Math.min(...ys))];
  const width = Math.ceil(Math.max(...xs)) - left;
  const height = Math.ceil(Math.max(...ys)) - top;
  const area = raster.width * raster.height;
  return width >= 1 && height >= 1 && width * height <= most * area + 1e4
    ? { left, top, width, height }
    : null;
}

// How near to the camera a point of the photo is, over what its middle is: 0 at the horizon.
function nearness(
  { matrix, lens }: Rectification,
  { width, height }: Size<number>,
): (point: Point) => number {
  const [, , , , , , g, h, i] = matrix;
  const [x, y] = [width / 2, height / 2];
  const middle = g * x + h * y + i;
  return (point) => {
    const [u, v] = [point.x - x, point.y - y];
    const bend = 1 + (lens * (u * u + v * v)) / (x * x + y * y);
    return (middle + bend * (g * u + h * v)) / middle;
  };
}

/** Where the pixels of one row lie in the photo. */
interface Places {
  /** Sample to the left and above. */
  readonly at: Int32Array;
  /** How far to the next, across. */
  readonly right: Float64Array;
  /** The same, down. */
  readonly down: Float64Array;
  /** 1 where the photo shows it, else 0. */
  readonly inside: Uint8Array;
}

function newPlaces(width: number): Places {
  return {
    at: new Int32Array(width),
    right: new Float64Array(width),
    down: new Float64Array(width),
    inside: new Uint8Array(width),
  };
}

// Between the nodes of a row; what lies outside the photo is taken from its edge.
function findPlaces({ width, height }: Raster, line: Float64Array, places: Places): void {
  const { at, right, down, inside } = places;
  for (let i = 0; i < at.length; i++) {
    const node = 2 * ((i / grid) | 0);
    const share = ((i % grid) + 0.5) / grid;
    const across = line[node]! + share * (line[node + 2]! - line[node]!);
    const along = line[node + 1]! + share * (line[node + 3]! - line[node + 1]!);
    const shows = across >= -0.5 && across < width - 0.5 && along >= -0.5 && along < height - 0.5;
    const x = Math.min(width - 1, Math.max(0, across));
    const y = Math.min(height - 1, Math.max(0, along));
    const column = Math.min(width - 2, x | 0);
    const row = Math.min(height - 2, y | 0);
    at[i] = row * width + column;
    right[i] = x - column;
    down[i] = y - row;
    inside[i] = shows ? 1 : 0;
  }
}

function sampleRow(plane: Float32Array, width: number, places: Places, out: Float32Array): void {
  const { at, right, down } = places;
  for (let i = 0; i < at.length; i++) {
    const here = at[i]!;
    const below = here + width;
    const s = right[i]!;
    const high = plane[here]! + s * (plane[here + 1]! - plane[here]!);
    const low = plane[below]! + s * (plane[below + 1]! - plane[below]!);
    out[i] = high + down[i]! * (low - high);
  }
}
