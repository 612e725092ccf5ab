import { applyHomography } from '../numeric/homography.js';
import type { Size } from '../units/parse-size.js';
import type { Rectification } from './measurement.js';

// What rounding may do to a promise, as a fraction: of the long side, and of an area.
const grace = { place: 0.02, area: 0.05 };

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
  const area = areaAt(rectification, middle.x, middle.y);
  if (!(area > 0)) return 'turns the photo over';
  return Math.abs(area - 1) <= grace.area ? null : "does not keep the size of the photo's middle";
}

// Level pixels to a pixel of the photo: the determinant of the map's slopes.
function areaAt({ matrix }: Rectification, x: number, y: number): number {
  const [a, b, c, d, e, f, g, h, i] = matrix;
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return determinant / (g * x + h * y + i) ** 3;
}
