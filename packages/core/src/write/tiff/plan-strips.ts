import type { WrittenRows } from '../written-rows.js';

/** How a picture is cut into strips. */
export interface StripPlan {
  /** Rows of every strip but perhaps the last. */
  readonly rows: number;
  /** Strips in all. */
  readonly count: number;
  /** Strips after which the same bytes come again; `count` where they do not. */
  readonly period: number;
}

// Bytes of a strip before compression: enough to compress well, few enough to hold several.
const usualBytes = 1 << 20;
// What a strip may grow to, so that a period with no fitting part is compressed once all the same.
const mostBytes = 1 << 26;

/**
 * Cut a picture into strips, such that one that repeats is cut alike in every period.
 *
 * @param source - The picture.
 * @returns Rows to a strip, and how many strips.
 */
export function planStrips(source: WrittenRows): StripPlan {
  const { width, height, channels = 3, period = height } = source;
  const stride = channels * width;
  const usual = Math.max(1, Math.floor(usualBytes / stride));
  const part = period < height ? partOf(period, usual, mostBytes / stride) : null;
  const rows = Math.min(part ?? usual, height);
  const count = Math.ceil(height / rows);
  return { rows, count, period: part === null ? count : period / part };
}

// The largest whole part of a period within a strip's usual rows, unless it is a sliver of one.
function partOf(period: number, usual: number, most: number): number | null {
  for (let rows = Math.min(usual, period); rows > usual / 2; rows--) {
    if (period % rows === 0) return rows;
  }
  return period <= most ? period : null;
}
