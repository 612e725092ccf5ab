import { identity, invert } from '../../numeric/matrix.js';
import type { PictureLie } from '../../drawing/slim/plan-picture.js';
import { endOf, type PerAxis, type PlannedSpan } from '../../drawing/slim/plan-spans.js';

/** Pixels along an axis of a picture. */
export interface Stretch {
  /** The first. */
  readonly from: number;
  /** How many. */
  readonly length: number;
}

/** Along both. */
export interface Window {
  /** Along rows. */
  readonly x: Stretch;
  /** Along columns. */
  readonly y: Stretch;
}

// Dots along each side of a block that is judged by its own mean: a third of a millimetre at 600 dpi where
// every dot is looked at.
const side = 8;

/** Dots that a block is judged by: so many spots follow one another. */
export const spotsPerBlock: number = side ** 2;

// Of the two fractions whose multiples spread most evenly over a square.
const [spreadX, spreadY] = [0.754_877_67, 0.569_840_29];

/**
 * Spread middles of dots over part of a picture, block by block: every dot, or one of each few where there
 * are too many.
 *
 * @param window - The part.
 * @param lie - How it lies on the print.
 * @param most - About how many, at most.
 * @returns Column, row, column, row, …, in its pixels.
 */
export function spreadSpots(window: Window, lie: PictureLie, most: number): Float64Array {
  const { x, y } = window;
  const { dots, perDot } = lie;
  // Shown larger than it is, it is judged pixel by pixel.
  const [perX, perY] = [Math.max(1, perDot.x), Math.max(1, perDot.y)];
  const apart = Math.max(1, Math.sqrt((x.length * y.length) / (perX * perY * most)));
  const [across, down] = [blocksOn(x.length / perX / apart), blocksOn(y.length / perY / apart)];
  const [stepX, stepY] = [x.length / (across * side), y.length / (down * side)];
  const [a, b, c, d, e, f] = dots;
  const [p, q, r, s, t, u] = invert(dots) ?? identity;
  const spots = new Float64Array(2 * across * down * spotsPerBlock);
  for (let i = 0; i < spots.length / 2; i++) {
    const [block, within] = [Math.floor(i / spotsPerBlock), i % spotsPerBlock];
    const column = (block % across) * side + (within % side);
    const row = Math.floor(block / across) * side + Math.floor(within / side);
    // Off the raster where dots are left out, which might else be that of the bricks.
    const [aside, below] = apart > 1 ? [(i * spreadX) % 1, (i * spreadY) % 1] : [0.5, 0.5];
    const atX = x.from + (column + aside) * stepX;
    const atY = y.from + (row + below) * stepY;
    const dotX = Math.floor(p * atX + r * atY + t) + 0.5;
    const dotY = Math.floor(q * atX + s * atY + u) + 0.5;
    spots[2 * i] = perDot.x < 1 ? Math.floor(atX) + 0.5 : a * dotX + c * dotY + e;
    spots[2 * i + 1] = perDot.y < 1 ? Math.floor(atY) + 0.5 : b * dotX + d * dotY + f;
  }
  return spots;
}

function blocksOn(spots: number): number {
  return Math.max(1, Math.round(spots / side));
}

/**
 * Old pixels to new ones, of middles of dots.
 *
 * @param spots - Column, row, …, in old pixels.
 * @param x - New columns.
 * @param y - New rows.
 * @returns In new pixels.
 */
export function moveSpots(spots: Float64Array, x: PlannedSpan, y: PlannedSpan): Float64Array {
  return spots.map((spot, i) => {
    const { start, pitch } = i % 2 === 0 ? x : y;
    return (spot - start) / pitch;
  });
}

/**
 * What is left of a window so far from its edge that nothing past it is looked at.
 *
 * @param span - New pixels along it.
 * @param perDot - Old pixels to a dot.
 * @param size - Old pixels that there are, from 0: an edge of theirs is no edge of the window.
 * @returns In old pixels.
 */
export function insideOf(span: PlannedSpan, perDot: number, size?: number): Stretch {
  const reach = 2 * Math.max(perDot, span.pitch);
  const [start, end] = [Math.max(0, span.start), Math.min(size ?? Infinity, endOf(span))];
  const first = size !== undefined && start === 0 ? 0 : reach;
  const last = size !== undefined && end === size ? 0 : reach;
  const isWide = end - start > 4 * reach;
  return { from: start + (isWide ? first : 0), length: end - start - (isWide ? first + last : 0) };
}

/**
 * How many pixels a program halves together that shows a picture smaller, at most.
 *
 * @param perDot - Its pixels to a dot.
 * @returns A power of 2.
 */
export function coarseOf(perDot: PerAxis): number {
  return 2 ** Math.ceil(Math.log2(Math.max(1, perDot.x, perDot.y)));
}

/** A picture along an axis. */
export interface HalvedPicture {
  /** How many pixels are halved together. */
  readonly coarse: number;
  /** How many there are. */
  readonly length: number;
}

/**
 * What programs look at to show a stretch of a picture, beginning where they would still halve the same
 * pixels together.
 *
 * @param low - Where it begins, in pixels.
 * @param high - Where it ends.
 * @param picture - Its pixels.
 * @returns Whole pixels, inside the picture.
 */
export function reachOf(low: number, high: number, picture: HalvedPicture): Stretch {
  const { coarse, length } = picture;
  const reach = 2 * coarse;
  const from = Math.min(length - 1, Math.max(0, Math.floor((low - reach) / coarse) * coarse));
  const to = Math.min(length, Math.ceil(high) + reach);
  return { from, length: Math.max(1, to - from) };
}
