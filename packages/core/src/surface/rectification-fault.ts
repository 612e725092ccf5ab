import { applyHomography } from '../numeric/homography.js';
import { type Slopes, slopesAt } from '../numeric/slopes-at.js';
import type { Size } from '../units/parse-size.js';
import type { Rectification } from './measurement.js';

// What rounding may do to a promise, as a fraction: of the long side, and of an area.
const grace = { place: 0.02, area: 0.05 };
// A plane seen at less than 3 degrees is stretched so many times more one way than the other: 1 / sin 3.
const mostStretch = 20;

/**
 * Say what is wrong with a rectification, where it cannot be one of a photo of that size.
 *
 * @param rectification - One whose matrix has a way back.
 * @param size - The photo, in pixels.
 * @returns What it does that none does, to go after `rectification`; or null.
 */
export function rectificationFault(
  rectification: Rectification,
  size: Size<number>,
): string | null {
  const { matrix, lens } = rectification;
  const middle = { x: size.width / 2, y: size.height / 2 };
  const nearness = (x: number, y: number): number => matrix[6] * x + matrix[7] * y + matrix[8];
  const at = nearness(middle.x, middle.y);
  // The photo's outline without its lens lies within its corners and the middles of its sides.
  const ends = [-1, 0, 1].flatMap((u) => [-1, 0, 1].map((v) => ({ u, v })));
  const least = ends.map(({ u, v }) => {
    const bend = 1 + (u !== 0 && v !== 0 ? lens : Math.max(0, lens));
    return nearness(middle.x + u * middle.x * bend, middle.y + v * middle.y * bend) / at;
  });
  if (!(Math.min(...least) > 0)) return 'has the horizon in the photo';
  const moved = applyHomography(matrix, middle.x, middle.y);
  const off = Math.hypot(moved.x - middle.x, moved.y - middle.y);
  if (!(off <= grace.place * Math.max(size.width, size.height))) {
    return "does not keep the photo's middle in its place";
  }
  const slopes = slopesAt(matrix, middle.x, middle.y);
  const area = slopes[0] * slopes[3] - slopes[1] * slopes[2];
  if (!(area > 0)) return 'turns the photo over';
  if (!(stretchOf(slopes, area) <= mostStretch)) {
    return `stretches the photo more than ${mostStretch} times as much one way as the other`;
  }
  return Math.abs(area - 1) <= grace.area ? null : "does not keep the size of the photo's middle";
}

// The longer axis over the shorter of what a small circle becomes.
function stretchOf([a, b, c, d]: Slopes, area: number): number {
  const half = (a * a + b * b + c * c + d * d) / 2 / area;
  return half + Math.sqrt(Math.max(0, half * half - 1));
}
