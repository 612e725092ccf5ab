import type { ColourLines } from './sample-colours.js';

// Looked at on each side of the wrap, at most: wider than a brick that came out double.
const widestSide = 48;
// Of the picture's own variance. Symmetrical work differs by more, by its grain.
const leastUnlike = 0.13;
const leastVariance = 0.1;
const mostScore = 100;

/**
 * Judge whether a picture meets itself only because one side is the other in a mirror.
 *
 * @param lines - Of the picture along an axis: rows for left and right.
 * @returns How much less than symmetrical work the two sides differ: over 1 is a mirror; 100 at most,
 * 0 where nothing is to be seen.
 */
export function judgeMirror(lines: ColourLines): number {
  const { count, length } = lines;
  const [samples] = lines.planes;
  const side = Math.min(widestSide, length >> 3);
  let unlike = 0;
  let sum = 0;
  let squares = 0;
  for (let line = 0; line < count; line++) {
    const start = line * length;
    for (let i = 0; i < side; i++) {
      const after = samples[start + i]!;
      const before = samples[start + length - 1 - i]!;
      unlike += (after - before) * (after - before);
      sum += after + before;
      squares += after * after + before * before;
    }
  }
  const size = 2 * count * side;
  // A flat picture is nobody's mirror image.
  const variance = squares / size - (sum / size) ** 2;
  if (!(variance > leastVariance)) return 0;
  return Math.min(mostScore, (leastUnlike * variance * size) / Math.max(unlike, 1e-9));
}
