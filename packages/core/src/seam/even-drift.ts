import { fitRobust } from '../numeric/fit-robust.js';
import { createRaster, type Raster } from '../raster/raster.js';
import type { PerAxis } from '../surface/measurement.js';

/** Along which axes light is evened, and over what. */
export interface DriftOptions {
  /** Whether to: an axis along which the picture meets itself already has nothing to take out. */
  readonly along: PerAxis<boolean>;
  /** One bond repeat in pixels, or null: cells of whole repeats hold as much mortar each. */
  readonly repeat: PerAxis<number | null>;
}

// As many cells as tell a bow from a slope, and few enough that each holds many bricks.
const mostCells = 12;

/**
 * Take the drift of light out of a picture: the slope and the bow, along each axis, of the
 * logarithm of its light, colour by colour. They would show as a grid where it repeats. Anything
 * that changes faster, brick from brick or patch from patch, stays as it is.
 *
 * @param raster - In linear light, left as it is.
 * @param options - Along which axes.
 * @returns A raster of its own, about as light as before.
 */
export function evenDrift(raster: Raster, options: DriftOptions): Raster {
  const { width, height } = raster;
  const across = cellsOf(width, options.repeat.x);
  const down = cellsOf(height, options.repeat.y);
  const shape = shapeOf(across.count, down.count, options.along);
  const out = createRaster(width, height);
  for (let channel = 0; channel < 3; channel++) {
    const from = raster.planes[channel]!;
    const means = cellMeans(from, width, across, down);
    const slow = shape.length === 0 ? [] : fitSlow(means, shape);
    divide(from, out.planes[channel]!, width, termsOf(slow, shape));
  }
  return out;
}

interface Cells {
  readonly count: number;
  // Pixels of one, seldom whole.
  readonly size: number;
}

function cellsOf(length: number, repeat: number | null): Cells {
  if (repeat === null)
    return { count: Math.min(mostCells, length), size: length / Math.min(mostCells, length) };
  const held = Math.max(1, Math.floor(length / repeat));
  const repeats = Math.ceil(held / mostCells);
  return {
    count: Math.max(1, Math.floor(held / repeats)),
    size: repeats * Math.min(repeat, length),
  };
}

// Powers of x and y, from -1 to 1 over the picture, that may be taken out.
type Power = readonly [x: 0 | 1 | 2, y: 0 | 1 | 2];

function shapeOf(across: number, down: number, along: PerAxis<boolean>): readonly Power[] {
  const x = along.x ? across : 1;
  const y = along.y ? down : 1;
  const powers: Power[] = [];
  if (x >= 2) powers.push([1, 0]);
  if (y >= 2) powers.push([0, 1]);
  if (x >= 4) powers.push([2, 0]);
  if (y >= 4) powers.push([0, 2]);
  if (Math.min(x, y) >= 4) powers.push([1, 1]);
  // As many curves as cells would draw the cells themselves.
  return powers.slice(0, Math.max(0, across * down - 2));
}

interface CellMeans {
  readonly logs: Float64Array;
  // Middles of the cells, -1 to 1 over the picture.
  readonly x: Float64Array;
  readonly y: Float64Array;
}

function cellMeans(plane: Float32Array, width: number, across: Cells, down: Cells): CellMeans {
  const height = plane.length / width;
  const size = across.count * down.count;
  const means = {
    logs: new Float64Array(size),
    x: new Float64Array(size),
    y: new Float64Array(size),
  };
  for (let cell = 0; cell < size; cell++) {
    const column = cell % across.count;
    const row = (cell - column) / across.count;
    const left = Math.floor(column * across.size);
    const right = Math.min(width, Math.max(left + 1, Math.floor((column + 1) * across.size)));
    const top = Math.floor(row * down.size);
    const bottom = Math.min(height, Math.max(top + 1, Math.floor((row + 1) * down.size)));
    let sum = 0;
    for (let y = top; y < bottom; y++) {
      for (let at = y * width + left, end = y * width + right; at < end; at++) sum += plane[at]!;
    }
    // A thousandth of white under it all: black has no logarithm.
    means.logs[cell] = Math.log(Math.max(0, sum) / ((right - left) * (bottom - top)) + 0.001);
    means.x[cell] = (left + right) / width - 1;
    means.y[cell] = (top + bottom) / height - 1;
  }
  return means;
}

function fitSlow(means: CellMeans, shape: readonly Power[]): Float64Array {
  const count = shape.length + 1;
  const curves = new Float64Array(count * means.logs.length);
  for (let cell = 0; cell < means.logs.length; cell++) {
    curves[cell * count] = 1;
    shape.forEach(([x, y], i) => {
      curves[cell * count + 1 + i] = means.x[cell]! ** x * means.y[cell]! ** y;
    });
  }
  return fitRobust(curves, means.logs).subarray(1);
}

interface Terms {
  readonly x: number;
  readonly xx: number;
  readonly y: number;
  readonly yy: number;
  readonly xy: number;
}

function termsOf(slow: ArrayLike<number>, shape: readonly Power[]): Terms {
  const of = (x: number, y: number): number => {
    const at = shape.findIndex((power) => power[0] === x && power[1] === y);
    return at < 0 ? 0 : slow[at]!;
  };
  return { x: of(1, 0), xx: of(2, 0), y: of(0, 1), yy: of(0, 2), xy: of(1, 1) };
}

function divide(from: Float32Array, to: Float32Array, width: number, terms: Terms): void {
  const height = from.length / width;
  const step = 2 / width;
  const first = 1 / width - 1;
  // The exponential of a bow needs two products a pixel instead of a power: its ratios have a
  // constant ratio. Squares have the mean 1/3, which is left in the picture.
  const bend = Math.exp(-2 * terms.xx * step * step);
  for (let y = 0; y < height; y++) {
    const v = (2 * y + 1) / height - 1;
    const slope = terms.x + terms.xy * v;
    const level = terms.y * v + terms.yy * (v * v - 1 / 3) - terms.xx / 3;
    let factor = Math.exp(-(level + slope * first + terms.xx * first * first));
    let ratio = Math.exp(-(slope * step + terms.xx * (2 * first * step + step * step)));
    for (let at = y * width, end = at + width; at < end; at++) {
      to[at] = from[at]! * factor;
      factor *= ratio;
      ratio *= bend;
    }
  }
}
