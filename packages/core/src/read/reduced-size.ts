import type { Size } from '../units/parse-size.js';

/** Shares of the longer side, below what was asked, among which both sides come to whole pixels. */
const search = 0.1;

/**
 * Choose a smaller size for a picture, of the same shape: of those a little below what is asked, the
 * one whose sides are shortened most nearly alike, so that a pixel of it stays square.
 *
 * @param size - Of the picture.
 * @param longest - Longer side asked, in pixels, 16 or more.
 * @returns Whole pixels; the size itself where it is under twice what is asked.
 */
export function reducedSize(size: Size<number>, longest: number): Size<number> {
  const { width, height } = size;
  const longer = Math.max(width, height);
  if (longer < 2 * longest) return { width, height };
  const shorter = Math.min(width, height);
  let best = { long: longest, short: 1, off: Infinity };
  for (let long = longest; long > longest * (1 - search); long--) {
    const exact = (shorter * long) / longer;
    const short = Math.max(1, Math.round(exact));
    const off = Math.abs(short / exact - 1);
    if (off < best.off) best = { long, short, off };
  }
  const { long, short } = best;
  return width >= height ? { width: long, height: short } : { width: short, height: long };
}
