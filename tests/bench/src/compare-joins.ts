import type { Overlap } from '../../../packages/core/dist/seam/mend/overlap.js';

/**
 * Add up what a cut costs.
 *
 * @param cut - Its column, row by row.
 * @param costs - Of all cells, row by row.
 * @returns The sum over its cells.
 */
export function costOf(cut: Int32Array, costs: Float32Array): number {
  const width = costs.length / cut.length;
  return cut.reduce((sum, x, y) => sum + costs[y * width + x]!, 0);
}

/**
 * Tell what is left of the step of light along a border, and how far the picture was changed for it.
 *
 * @param joined - Two windows made one, colour by colour, in roots of light.
 * @param border - First column from the second window, row by row.
 * @param windows - The two.
 * @returns A line of words.
 */
export function tellStep(
  joined: readonly Float32Array[],
  border: Int32Array,
  windows: Overlap,
): string {
  const { width, height, ending, beginning } = windows;
  let step = 0;
  let changed = 0;
  // Past the frame of two pixels that a solver may hold.
  for (let y = 2; y < height - 2; y++) {
    const cut = border[y]!;
    for (const [channel, plane] of joined.entries()) {
      const at = y * width + cut;
      step += plane[at]! - plane[at - 1]!;
      for (let x = 2; x < width - 2; x++) {
        const source = (x < cut ? ending : beginning)[channel]![y * width + x]!;
        changed += Math.abs(plane[y * width + x]! - source);
      }
    }
  }
  const rows = joined.length * (height - 4);
  const levels = (sum: number, count: number): string => ((255 * sum) / count).toFixed(2);
  return `mean step of light along the border ${levels(step, rows)} levels of 255, picture changed by ${levels(changed, rows * (width - 4))} in the mean`;
}

/**
 * Tell how the contrast in the middle of a fade compares with that of the two windows there.
 *
 * @param joined - Two windows made one.
 * @param windows - The two.
 * @returns A line of words.
 */
export function tellContrast(joined: readonly Float32Array[], windows: Overlap): string {
  const { width, height, ending, beginning } = windows;
  const from = Math.round(width * 0.4);
  const to = Math.round(width * 0.6);
  const spread = (planes: readonly Float32Array[]): number => {
    let squares = 0;
    for (const plane of planes) {
      let [sum, own] = [0, 0];
      for (let y = 0; y < height; y++) {
        for (let x = from; x < to; x++) {
          const value = plane[y * width + x]!;
          sum += value;
          own += value * value;
        }
      }
      const count = height * (to - from);
      squares += own / count - (sum / count) ** 2;
    }
    return Math.sqrt(squares);
  };
  const before = (spread(ending) + spread(beginning)) / 2;
  return `contrast in the middle of the fade ${(spread(joined) / before).toFixed(3)} of that of the windows`;
}
