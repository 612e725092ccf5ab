import { cheapestCut } from '../../numeric/cheapest-cut.js';
import { wrapInto } from '../../numeric/wrap-into.js';
import { softenMask } from '../mend/soften-mask.js';
import type { Canvas, Patch } from './canvas.js';
import { priceCut } from './price-cut.js';

/** Where a patch goes, and along which of its sides something lies already. */
export interface PatchPlace {
  /** Column of its left edge; past an edge of the canvas it comes in at the other. */
  readonly x: number;
  /** Row of its top edge. */
  readonly y: number;
  /** Pixels from its left and right edge in which it is cut into what lies there. */
  readonly across: number;
  /** The same from its top and bottom edge. */
  readonly down: number;
  /** Whether there is anything to cut into, side by side. */
  readonly meets: {
    /** On the left. */
    readonly left: boolean;
    /** On the right. */
    readonly right: boolean;
    /** Above. */
    readonly top: boolean;
    /** Below. */
    readonly bottom: boolean;
  };
}

/**
 * Lay a patch on a canvas, cut into what lies there along the lines where the two differ least.
 *
 * @param canvas - Written to.
 * @param patch - What to lay.
 * @param place - Where.
 * @see Efros and Freeman 2001, Image quilting for texture synthesis and transfer
 */
export function placePatch(canvas: Canvas, patch: Patch, place: PatchPlace): void {
  const cells = cellsOf(canvas, patch, place);
  const costs = costsOf(canvas, patch, cells);
  const keep = new Uint8Array(cells.length).fill(1);
  cutSides({ patch, place, costs }, keep);
  // What nothing lies on is taken whatever the cuts say.
  for (let i = 0; i < keep.length; i++) if (canvas.filled[cells[i]!] === 0) keep[i] = 1;
  blend(canvas, patch, { cells, shares: softenMask(keep, patch.width) });
}

function cellsOf(canvas: Canvas, patch: Patch, { x, y }: PatchPlace): Int32Array {
  const { width, height } = canvas;
  const cells = new Int32Array(patch.width * patch.height);
  for (let j = 0; j < patch.height; j++) {
    const row = wrapInto(y + j, height) * width;
    for (let i = 0; i < patch.width; i++) {
      cells[j * patch.width + i] = row + wrapInto(x + i, width);
    }
  }
  return cells;
}

function costsOf(canvas: Canvas, patch: Patch, cells: Int32Array): Float32Array {
  const costs = new Float32Array(cells.length);
  for (let channel = 0; channel < 3; channel++) {
    const there = canvas.planes[channel]!;
    const here = patch.planes[channel]!;
    for (let i = 0; i < costs.length; i++) costs[i]! += (here[i]! - there[cells[i]!]!) ** 2;
  }
  for (let i = 0; i < costs.length; i++) {
    costs[i] = priceCut(costs[i]!, Math.min(patch.likeness[i]!, canvas.likeness[cells[i]!]!));
  }
  return costs;
}

interface Cutting {
  readonly patch: Patch;
  readonly place: PatchPlace;
  readonly costs: Float32Array;
}

function cutSides({ patch, place, costs }: Cutting, keep: Uint8Array): void {
  const { width, height } = patch;
  const { across, down, meets } = place;
  const right = width - 2 * across;
  const bottom = (height - 2 * down) * width;
  const upright = { long: height, along: width, inward: 1, deep: 2 * across };
  const level = { long: width, along: 1, inward: width, deep: 2 * down };
  if (meets.left) cutSide(costs, keep, { ...upright, first: 0, far: false });
  if (meets.right) cutSide(costs, keep, { ...upright, first: right, far: true });
  if (meets.top) cutSide(costs, keep, { ...level, first: 0, far: false });
  if (meets.bottom) cutSide(costs, keep, { ...level, first: bottom, far: true });
}

// A band of the patch: its first cell, steps along it and into the patch, and whether what is kept
// lies before the cut.
interface Band {
  readonly long: number;
  readonly along: number;
  readonly inward: number;
  readonly deep: number;
  readonly first: number;
  readonly far: boolean;
}

function cutSide(costs: Float32Array, keep: Uint8Array, side: Band): void {
  const { long, along, inward, deep, first, far } = side;
  const band = new Float32Array(long * deep);
  for (let i = 0; i < long; i++) {
    for (let d = 0; d < deep; d++) band[i * deep + d] = costs[first + i * along + d * inward]!;
  }
  const cut = cheapestCut(band, deep);
  for (let i = 0; i < long; i++) {
    const [from, to] = far ? [cut[i]!, deep] : [0, cut[i]!];
    for (let d = from; d < to; d++) keep[first + i * along + d * inward] = 0;
  }
}

function blend(
  { planes, likeness, filled }: Canvas,
  patch: Patch,
  { cells, shares }: { readonly cells: Int32Array; readonly shares: Float32Array },
): void {
  const [red, green, blue] = planes;
  const [ownRed, ownGreen, ownBlue] = patch.planes;
  for (let i = 0; i < cells.length; i++) {
    const at = cells[i]!;
    const share = filled[at] === 0 ? 1 : shares[i]!;
    filled[at] = 1;
    if (share === 0) continue;
    red[at]! += share * (ownRed[i]! - red[at]!);
    green[at]! += share * (ownGreen[i]! - green[at]!);
    blue[at]! += share * (ownBlue[i]! - blue[at]!);
    likeness[at]! += share * (patch.likeness[i]! - likeness[at]!);
  }
}
