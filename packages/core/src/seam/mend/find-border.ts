import { cheapestBorder } from '../../numeric/cheapest-border.js';
import { cheapestCut } from '../../numeric/cheapest-cut.js';
import type { Overlap } from './overlap.js';
import { priceBorder, squaredSteps } from './price-border.js';

/**
 * Find the border between two windows on one picture along which they differ least, in joints where
 * they show any.
 *
 * @param windows - The two.
 * @param joints - Where both show mortar, 0 to 1, or null where nobody knows.
 * @param closed - Whether top meets bottom, so that the border must too.
 * @returns First column, in the windows, that is taken from the beginning, row by row.
 */
export function findBorder(
  windows: Overlap,
  joints: Float32Array | null,
  closed: boolean,
): Int32Array {
  const { width, height, margin } = windows;
  const inner = width - 2 * margin;
  // Nothing overlaps: the ends meet where they meet.
  if (inner === 0) return new Int32Array(height).fill(margin);
  const unlike = squaredSteps(windows.ending, windows.beginning);
  const border =
    joints === null
      ? cheapestCut(toAcross(unlike, windows), inner, { closed })
      : alongJoints(unlike, { joints, windows, closed });
  for (let y = 0; y < height; y++) border[y]! += margin;
  return border;
}

interface InJoints {
  readonly joints: Float32Array;
  readonly windows: Overlap;
  readonly closed: boolean;
}

function alongJoints(unlike: Float32Array, { joints, windows, closed }: InJoints): Int32Array {
  const { width, height, margin } = windows;
  priceBorder(unlike, joints);
  const inner = width - 2 * margin;
  const along = new Float32Array(inner * height);
  for (let y = 0; y < height; y++) {
    const above = (y > 0 ? y - 1 : height - 1) * width + margin;
    const row = y * width + margin;
    for (let x = 0; x < inner; x++) along[y * inner + x] = unlike[row + x]! + unlike[above + x]!;
  }
  return cheapestBorder({ width: inner, across: toAcross(unlike, windows), along }, { closed });
}

// Of a border left of each cell: what it costs on both its sides.
function toAcross(unlike: Float32Array, { width, height, margin }: Overlap): Float32Array {
  const inner = width - 2 * margin;
  const across = new Float32Array(inner * height);
  for (let y = 0; y < height; y++) {
    const row = y * width + margin;
    for (let x = 0; x < inner; x++) across[y * inner + x] = unlike[row + x]! + unlike[row + x - 1]!;
  }
  return across;
}
