import type { Cells } from './fold-rows.js';

/** One stretch of the picture: which cells, and how many rows to a sample. */
export interface Stretch {
  /** First cell. */
  readonly from: number;
  /** One past the last. */
  readonly to: number;
  /** Rows averaged into one sample. */
  readonly step: number;
}

/**
 * Average a stretch of cells across and `step` rows at a time.
 *
 * @param cells - The picture, folded.
 * @param stretch - Which part.
 * @returns Lightness down the stretch.
 */
export function gatherStretch(cells: Cells, stretch: Stretch): Float32Array {
  const { from, to, step } = stretch;
  const length = Math.floor(cells.rows / step);
  const out = new Float32Array(length);
  const scale = 1 / ((to - from) * step);
  for (let c = from; c < to; c++) {
    let at = c * cells.rows;
    for (let i = 0; i < length; i++) {
      let sum = 0;
      for (let k = 0; k < step; k++) sum += cells.lightness[at++]!;
      out[i] = out[i]! + sum * scale;
    }
  }
  return out;
}
