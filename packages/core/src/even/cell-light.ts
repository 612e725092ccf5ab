import type { Raster } from '../raster/raster.js';
import type { PerAxis } from '../surface/measurement.js';

/** Bed joints that say nothing of the light. */
export interface JointRows {
  /** Along which axis they follow one another. */
  readonly axis: 'x' | 'y';
  /** From one to the next, pixels. */
  readonly course: number;
  /** Where one lies, pixels. */
  readonly offset: number;
}

/** Light of the bricks, cell by cell. */
export interface CellLight {
  /** Logarithms of red, green and blue, row by row of cells. */
  readonly logs: readonly [Float64Array, Float64Array, Float64Array];
  /** Middles of the cells, -1 to 1 over the picture. */
  readonly x: Float64Array;
  /** The same, down. */
  readonly y: Float64Array;
  /** Cells across and down. */
  readonly count: PerAxis<number>;
}

/** As many cells as tell a bow from a slope, and few enough that each holds several bricks. */
const mostCells = 16;
/** Samples looked at in a cell. */
const mostSamples = 300;
/** Share of a course, to either side of its bed joint, that may be mortar or its shadow. */
const mortar = 0.16;
/** A thousandth of white under it all: black has no logarithm. */
const floor = 0.001;

/**
 * Take the light of each cell of a picture: the mean of its middling samples, so that neither
 * mortar, nor a dark brick, nor a stain in a corner of it counts.
 *
 * @param raster - In linear light.
 * @param unit - A brick with its joint, pixels, or null: cells hold whole ones.
 * @param joints - Bed joints, or null.
 * @returns Cells, at most 16 each way.
 */
export function cellLight(
  raster: Raster,
  unit: PerAxis<number | null>,
  joints: JointRows | null,
): CellLight {
  const { width, height } = raster;
  const across = cutAxis(width, unit.x);
  const down = cutAxis(height, unit.y);
  const size = across * down;
  const cells: CellLight = {
    logs: [new Float64Array(size), new Float64Array(size), new Float64Array(size)],
    x: new Float64Array(size),
    y: new Float64Array(size),
    count: { x: across, y: down },
  };
  const isMortar = maskOf(joints);
  for (let cell = 0; cell < size; cell++) {
    const column = cell % across;
    const row = (cell - column) / across;
    const [left, right] = [(column * width) / across, ((column + 1) * width) / across];
    const [top, bottom] = [(row * height) / down, ((row + 1) * height) / down];
    const light = middling(raster, { left, right, top, bottom }, isMortar);
    for (const [channel, value] of light.entries()) {
      cells.logs[channel]![cell] = Math.log(Math.max(0, value) + floor);
    }
    cells.x[cell] = (left + right) / width - 1;
    cells.y[cell] = (top + bottom) / height - 1;
  }
  return cells;
}

// Cells of a brick or more.
function cutAxis(length: number, unit: number | null): number {
  const held = unit === null ? length : length / unit;
  return Math.max(1, Math.min(mostCells, Math.floor(held)));
}

function maskOf(joints: JointRows | null): (x: number, y: number) => boolean {
  if (joints === null) return () => false;
  const { axis, course, offset } = joints;
  return (x, y) => {
    const at = ((axis === 'y' ? y : x) + 0.5 - offset) / course;
    return Math.abs(at - Math.round(at)) < mortar;
  };
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

// Mean colour of the samples between the quartiles of lightness.
function middling(
  { width, planes: [red, green, blue] }: Raster,
  { left, right, top, bottom }: Box,
  isMortar: (x: number, y: number) => boolean,
): [number, number, number] {
  const area = (right - left) * (bottom - top);
  const stride = Math.max(1, Math.floor(Math.sqrt(area / mostSamples)));
  const places: number[] = [];
  const spare: number[] = [];
  for (let y = Math.floor(top); y < Math.max(top + 1, bottom - 0.5); y += stride) {
    for (let x = Math.floor(left); x < Math.max(left + 1, right - 0.5); x += stride) {
      (isMortar(x, y) ? spare : places).push(y * width + x);
    }
  }
  const kept = places.length > 0 ? places : spare;
  const lightAt = (at: number): number =>
    0.2126 * red[at]! + 0.7152 * green[at]! + 0.0722 * blue[at]!;
  const lights = Float64Array.from(kept, lightAt).sort();
  const low = lights[Math.floor(0.25 * (lights.length - 1))]!;
  const high = lights[Math.ceil(0.75 * (lights.length - 1))]!;
  const sums: [number, number, number] = [0, 0, 0];
  let count = 0;
  for (const at of kept) {
    const light = lightAt(at);
    if (light < low || light > high) continue;
    sums[0] += red[at]!;
    sums[1] += green[at]!;
    sums[2] += blue[at]!;
    count++;
  }
  return [sums[0] / count, sums[1] / count, sums[2] / count];
}
