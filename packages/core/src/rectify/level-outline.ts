import { applyHomography } from '../numeric/homography.js';
import type { Rectification } from '../surface/measurement.js';
import type { Point } from '../units/parse-point.js';
import type { Size } from '../units/parse-size.js';

// Straight pieces each side is taken for: a lens that bends a side by 200 px is then off by 0.01.
const pieces = 128;
// What the photo shows at less than half the size along the courses, and so a quarter across, is
// left out: there is next to nothing to be seen in it.
const leastNear = 0.5;

/**
 * Draw the outline of what a photo shows on the level picture. Of what recedes far into the
 * distance, only the near part counts.
 *
 * @param rectification - How the photo is made level; its middle must be before the horizon.
 * @param size - The photo, in pixels.
 * @returns Corners of a closed outline in level pixels, many.
 */
export function levelOutline(rectification: Rectification, size: Size<number>): readonly Point[] {
  const { matrix, lens } = rectification;
  const { width, height } = size;
  const middle = { x: width / 2, y: height / 2 };
  const corner = (width * width + height * height) / 4;
  const border = walkBorder(width, height).map(({ x, y }) => {
    const [u, v] = [x - middle.x, y - middle.y];
    const bend = 1 + (lens * (u * u + v * v)) / corner;
    return { x: middle.x + u * bend, y: middle.y + v * bend };
  });
  const nearness = ({ x, y }: Point): number => matrix[6] * x + matrix[7] * y + matrix[8];
  const least = leastNear * nearness(middle);
  const near = cutOff(border, (point) => (nearness(point) - least) * Math.sign(least));
  return near.map(({ x, y }) => applyHomography(matrix, x, y));
}

function walkBorder(width: number, height: number): Point[] {
  const side = (from: Point, to: Point): Point[] =>
    Array.from({ length: pieces }, (_, i) => ({
      x: from.x + ((to.x - from.x) * i) / pieces,
      y: from.y + ((to.y - from.y) * i) / pieces,
    }));
  const corners = [
    { x: 0, y: 0 },
    { x: width, y: 0 },
    { x: width, y: height },
    { x: 0, y: height },
  ] as const;
  const [a, b, c, d] = corners;
  return [...side(a, b), ...side(b, c), ...side(c, d), ...side(d, a)];
}

// The part of an outline on the good side of a line, where `above` is 0 or more.
function cutOff(outline: readonly Point[], above: (point: Point) => number): Point[] {
  return outline.flatMap((point, i) => {
    const before = outline.at(i - 1) ?? point;
    const [here, there] = [above(point), above(before)];
    const kept = here >= 0 ? [point] : [];
    if (here >= 0 === there >= 0) return kept;
    const t = there / (there - here);
    const cut = { x: before.x + t * (point.x - before.x), y: before.y + t * (point.y - before.y) };
    return [cut, ...kept];
  });
}
