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

/** Light of the bricks, cell by cell, row by row of cells. */
export interface CellLight {
  /** Logarithm of how light they are. */
  readonly light: Float64Array;
  /** Logarithms of red, green and blue over how light they are. */
  readonly tints: readonly [Float64Array, Float64Array, Float64Array];
  /** Middles of the cells, -1 to 1 over the picture. */
  readonly x: Float64Array;
  /** The same, down. */
  readonly y: Float64Array;
  /** Cells across and down. */
  readonly count: PerAxis<number>;
}

/** As many cells as tell a bow from a slope, and few enough that each holds whole bricks. */
const mostCells = 16;
/** Fewer pixels than this are no cell. */
const leastSide = 8;
/** Samples looked at in a cell. */
const samples = 192;
/** Share of a course, to either side of its bed joint, that may be mortar or its shadow. */
const mortar = 0.16;
/** Light under it all, a four-hundredth of white: black has no logarithm, and no colour. */
const floor = 0.0025;
// Steps of the plastic number's powers spread evenly over a square, and fall in with no lattice.
const stepX = 0.7548776662466927;
const stepY = 0.5698402909980532;

/**
 * Take the light of each cell of a picture: the mean of its middling samples, so that neither
 * mortar, nor a dark brick, nor a stain in a corner of it counts.
 *
 * @param raster - In linear light.
 * @param unit - A brick with its joint, pixels, or null: cells hold whole ones.
 * @param joints - Bed joints, or null.
 * @returns Cells, 1 to 16 each way.
 * @see M. Roberts 2018, The unreasonable effectiveness of quasirandom sequences: where to sample
 */
export function cellLight(
  raster: Raster,
  unit: PerAxis<number | null>,
  joints: JointRows | null,
): CellLight {
  const { width, height, planes } = raster;
  const count = { x: cutAxis(width, unit.x), y: cutAxis(height, unit.y) };
  const size = count.x * count.y;
  const take = (): Float64Array => new Float64Array(size);
  const cells = { light: take(), tints: [take(), take(), take()] as const, x: take(), y: take() };
  const faces = findFaces(width, height, joints);
  const [w, h] = [width / count.x, height / count.y];
  const scratch = { at: new Uint32Array(samples), light: new Float32Array(samples) };
  for (let cell = 0; cell < size; cell++) {
    const column = cell % count.x;
    const row = (cell - column) / count.x;
    const box = { left: column * w, top: row * h, width: w, height: h };
    const seen = sampleCell(raster, box, faces, scratch);
    const mean = middling(planes, scratch, seen);
    const light = Math.log(0.2126 * mean[0]! + 0.7152 * mean[1]! + 0.0722 * mean[2]! + floor);
    cells.light[cell] = light;
    for (const [i, tint] of cells.tints.entries()) tint[cell] = Math.log(mean[i]! + floor) - light;
    cells.x[cell] = (2 * column + 1) / count.x - 1;
    cells.y[cell] = (2 * row + 1) / count.y - 1;
  }
  return { ...cells, count };
}

// Cells of a brick or more.
function cutAxis(length: number, unit: number | null): number {
  const least = Math.max(leastSide, unit ?? 0);
  return Math.max(1, Math.min(mostCells, Math.floor(length / least)));
}

// Which rows, or columns, are of faces and not of mortar: 1 or 0 each.
interface Faces {
  readonly x: Uint8Array;
  readonly y: Uint8Array;
}

function findFaces(width: number, height: number, joints: JointRows | null): Faces {
  const faces = { x: new Uint8Array(width).fill(1), y: new Uint8Array(height).fill(1) };
  if (joints === null) return faces;
  const { axis, course, offset } = joints;
  const line = faces[axis];
  for (let i = 0; i < line.length; i++) {
    const at = (i + 0.5 - offset) / course;
    if (Math.abs(at - Math.round(at)) < mortar) line[i] = 0;
  }
  // Where courses are too fine to tell faces from joints, all counts.
  if (!line.includes(1)) line.fill(1);
  return faces;
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

interface Scratch {
  readonly at: Uint32Array;
  readonly light: Float32Array;
}

function sampleCell(
  { width, height, planes: [red, green, blue] }: Raster,
  box: Box,
  faces: Faces,
  { at, light }: Scratch,
): number {
  let seen = 0;
  let [u, v] = [0.5, 0.5];
  // Joints are a third of a wall at most, unless they are all there is.
  for (let turn = 0; turn < 4 * samples && seen < samples; turn++) {
    u = u + stepX >= 1 ? u + stepX - 1 : u + stepX;
    v = v + stepY >= 1 ? v + stepY - 1 : v + stepY;
    const x = Math.min(width - 1, Math.floor(box.left + u * box.width));
    const y = Math.min(height - 1, Math.floor(box.top + v * box.height));
    if ((faces.x[x]! & faces.y[y]!) === 0 && turn < 3 * samples) continue;
    const i = y * width + x;
    at[seen] = i;
    light[seen++] = 0.2126 * red[i]! + 0.7152 * green[i]! + 0.0722 * blue[i]!;
  }
  return seen;
}

// Mean colour of the samples between the quartiles of lightness.
function middling(
  planes: Raster['planes'],
  { at, light }: Scratch,
  seen: number,
): readonly number[] {
  const sorted = light.slice(0, seen).sort();
  const [low, high] = [sorted[seen >> 2]!, sorted[(3 * seen) >> 2]!];
  const sums = [0, 0, 0];
  let held = 0;
  for (let k = 0; k < seen; k++) {
    if (light[k]! < low || light[k]! > high) continue;
    held++;
    for (let channel = 0; channel < 3; channel++) sums[channel]! += planes[channel]![at[k]!]!;
  }
  return sums.map((sum) => Math.max(0, sum) / held);
}
