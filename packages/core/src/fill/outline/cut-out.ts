import { encodeSrgb } from '../../colour/srgb.js';
import { meanLight } from '../../raster/mean-light.js';
import type { Raster } from '../../raster/raster.js';
import { isLaid } from '../lay-copies.js';
import { type CoveredSize, coverRows } from './cover-rows.js';
import { growLoops } from './grow-loops.js';
import { outerLoops } from './outer-loops.js';
import type { PartOutline } from './part-outline.js';

/**
 * Tell for each pixel which share of it is card, or bleed past its outer edge: what lies near it, less all
 * that it bounds.
 *
 * @param shape - In pixels from the picture's top left.
 * @param bleed - In pixels; windows get none.
 * @param size - Of the picture.
 * @yields 0 to 1 for each pixel of a row; the same array again for the next.
 * @throws TextureError `bad-drawing` where it crosses itself without end.
 */
export function* coverPart(
  shape: PartOutline,
  bleed: number,
  size: CoveredSize,
): Generator<Float64Array, void> {
  if (bleed === 0) {
    yield* coverRows(shape, size);
    return;
  }
  const outer = outerLoops(shape.loops);
  const grown = coverRows({ loops: growLoops(outer, bleed), rule: 'nonzero' }, size);
  const whole = coverRows({ loops: outer, rule: 'nonzero' }, size);
  const all = new Float64Array(size.width);
  for (const card of coverRows(shape, size)) {
    const [near, inside] = [nextCover(grown), nextCover(whole)];
    for (let i = 0; i < all.length; i++) all[i] = card[i]! + near[i]! - inside[i]!;
    yield all;
  }
}

/**
 * Take the next row of a cover that has as many as the page.
 *
 * @param covers - What makes them.
 * @returns One.
 */
export function nextCover(covers: Generator<Float64Array, void>): Float64Array {
  const { value } = covers.next();
  if (value === undefined) throw new Error('an outline that covers too few rows');
  return value;
}

/**
 * Make pixels of a row as opaque as they are covered.
 *
 * @param row - RGBA, opaque; changed in place.
 * @param cover - 0 to 1 for each.
 * @param clear - What one becomes that is not covered at all.
 */
export function cutRow(row: Uint8Array, cover: Float64Array, clear: number): void {
  const pixels = new Uint32Array(row.buffer, row.byteOffset, row.length / 4);
  for (let i = 0, alpha = 3; i < pixels.length; i++, alpha += 4) {
    const opaque = Math.round(255 * cover[i]!);
    if (opaque >= 255) continue;
    if (opaque <= 0) pixels[i] = clear;
    else row[alpha] = opaque;
  }
}

/**
 * Make a clear pixel, of a tile's own colour, so that a program that smooths colours apart from opacity
 * draws no dark edge.
 *
 * @param tile - Whose mean it takes.
 * @returns RGBA, as bytes of this machine's order.
 */
export function clearPixel(tile: Raster): number {
  const [red, green, blue] = meanLight(isLaid(tile) ? tile.copy : tile).map(encodeSrgb);
  const [pixel = 0] = new Uint32Array(Uint8Array.of(red ?? 0, green ?? 0, blue ?? 0, 0).buffer);
  return pixel;
}

/**
 * Make a row opaque.
 *
 * @param row - RGB.
 * @param out - Becomes RGBA; as many pixels.
 * @returns The same.
 */
export function widenRow(row: Uint8Array, out: Uint8Array): Uint8Array {
  for (let from = 0, to = 0; from < row.length; from += 3, to += 4) {
    out[to] = row[from]!;
    out[to + 1] = row[from + 1]!;
    out[to + 2] = row[from + 2]!;
    out[to + 3] = 255;
  }
  return out;
}
