import { wrapInto } from '../../numeric/wrap-into.js';
import { cheapestBorder } from '../../numeric/cheapest-border.js';
import { cheapestCut } from '../../numeric/cheapest-cut.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { inBoth } from '../mend/in-both.js';
import { priceBorder, squaredSteps } from '../mend/price-border.js';
import { softenMask } from '../mend/soften-mask.js';
import type { Place } from './find-ordinary.js';
import { takePlane, takeWindow } from './take-window.js';

/** What is laid where. */
export interface Patch {
  /** The place that is replaced. */
  readonly place: Place;
  /** From how far away it is taken. */
  readonly shift: PerAxis<number>;
  /** Of every pixel of the tile, how like mortar it is, or null where nobody knows. */
  readonly likeness: Float32Array | null;
}

// Square roots of light.
const mostLight = 0.12;

/**
 * Lay a piece of a tile over another, cut where the two differ least, in joints where there are any.
 *
 * @param tile - In linear light; its planes are written to.
 * @param patch - From where to where.
 */
export function layPatch(tile: Raster, patch: Patch): void {
  const { place, shift, likeness } = patch;
  const { outer } = place;
  const moved = { ...outer, x: outer.x + shift.x, y: outer.y + shift.y };
  const here = takeWindow(tile, outer);
  const there = takeWindow(tile, moved);
  const joints =
    likeness && inBoth(takePlane(likeness, tile, outer), takePlane(likeness, tile, moved), outer);
  const costs = squaredSteps(here, there);
  if (joints !== null) priceBorder(costs, joints);
  const share = softenMask(insideOf(costs, place, joints !== null), outer.width);
  for (const [channel, from] of there.entries()) {
    const offset = lightOffset(here[channel]!, from, { joints, share });
    const to = tile.planes[channel]!;
    for (let y = 0, at = 0; y < outer.height; y++) {
      const row = wrapInto(outer.y + y, tile.height) * tile.width;
      for (let x = 0; x < outer.width; x++, at++) {
        const part = share[at]!;
        if (part === 0) continue;
        const root = here[channel]![at]! * (1 - part) + (from[at]! + offset) * part;
        to[row + wrapInto(outer.x + x, tile.width)] = root > 0 ? root * root : 0;
      }
    }
  }
}

// 1 within four borders, each between the core and one side of the window.
function insideOf(costs: Float32Array, { core, outer }: Place, free: boolean): Uint8Array {
  const { width, height } = outer;
  const left = core.x - outer.x;
  const top = core.y - outer.y;
  const right = left + core.width;
  const foot = top + core.height;
  const turned = transpose(costs, width, height);
  const columns = { length: height, stride: width, free };
  const rows = { length: width, stride: height, free };
  const first = borderIn(costs, { ...columns, from: 0, to: left });
  const last = borderIn(costs, { ...columns, from: right, to: width });
  const upper = borderIn(turned, { ...rows, from: 0, to: top });
  const lower = borderIn(turned, { ...rows, from: foot, to: height });
  const inside = new Uint8Array(costs.length);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      const within = x >= first[y]! && x < last[y]! && y >= upper[x]! && y < lower[x]!;
      inside[at] = within ? 1 : 0;
    }
  }
  return inside;
}

interface BandOfWindow {
  readonly length: number;
  readonly stride: number;
  readonly free: boolean;
  readonly from: number;
  readonly to: number;
}

// Down the columns from one to the other: the first column past the border, row by row.
function borderIn(costs: Float32Array, band: BandOfWindow): Int32Array {
  const { length, stride, free, from, to } = band;
  const width = to - from;
  const across = new Float32Array(width * length);
  for (let y = 0; y < length; y++) {
    across.set(costs.subarray(y * stride + from, y * stride + to), y * width);
  }
  const border = free
    ? cheapestBorder({ width, across, along: across })
    : cheapestCut(across, width);
  for (let y = 0; y < length; y++) border[y] = border[y]! + from;
  return border;
}

function transpose(values: Float32Array, width: number, height: number): Float32Array {
  const out = new Float32Array(values.length);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) out[x * height + y] = values[y * width + x]!;
  }
  return out;
}

// By how much what stays around is lighter than what was around the piece, told by mortar alone where
// there is any.
function lightOffset(
  here: Float32Array,
  there: Float32Array,
  { joints, share }: { readonly joints: Float32Array | null; readonly share: Float32Array },
): number {
  let [sum, weights] = [0, 1e-6];
  for (let i = 0; i < here.length; i++) {
    const mortar = joints === null ? 1 : joints[i]!;
    const step = here[i]! - there[i]!;
    // What differs by so much is not light: the stain may reach there.
    if (Math.abs(step) > mostLight) continue;
    const weight = (1 - share[i]!) * mortar;
    sum += weight * step;
    weights += weight;
  }
  return sum / weights;
}
