import type { Point } from '../../units/parse-point.js';
import type { Corners } from './sort-corners.js';

/** Where a rectangle's pairs of sides run to, about the photo's middle. */
interface Directions {
  // Along the width and the height: places where the sides meet, as x, y and how near.
  readonly across: Direction;
  readonly down: Direction;
}

type Direction = readonly [x: number, y: number, nearness: number];

// Z. Zhang and L.-W. He 2003, Whiteboard scanning and image enhancement, MSR-TR-2003-39: its k2, k3, n2
// and n3, about the photo's middle. Each direction is as long as the side that runs in it.
function directionsOf(corners: Corners, middle: Point): Directions {
  const [a, b, c, d] = corners;
  const place = ({ x, y }: Point): Direction => [x - middle.x, y - middle.y, 1];
  const [m1, m2, m3, m4] = [place(a), place(b), place(d), place(c)];
  const diagonal = cross(m1, m4);
  const k2 = dot(diagonal, m3) / dot(cross(m2, m4), m3);
  const k3 = dot(diagonal, m2) / dot(cross(m3, m4), m2);
  return {
    across: [k2 * m2[0] - m1[0], k2 * m2[1] - m1[1], k2 - 1],
    down: [k3 * m3[0] - m1[0], k3 * m3[1] - m1[1], k3 - 1],
  };
}

function cross([a, b, c]: Direction, [d, e, f]: Direction): Direction {
  return [b * f - c * e, c * d - a * f, a * e - b * d];
}

function dot([a, b, c]: Direction, [d, e, f]: Direction): number {
  return a * d + b * e + c * f;
}

/**
 * Find the focal length of the camera that saw a rectangle.
 *
 * @param corners - In order, in pixels of the photo.
 * @param middle - Of the photo.
 * @returns Pixels; null where the view does not tell, as where two sides look parallel.
 */
export function viewFocal(corners: Corners, middle: Point): number | null {
  const { across, down } = directionsOf(corners, middle);
  const square = -(across[0] * down[0] + across[1] * down[1]) / (across[2] * down[2]);
  return square > 0 && square < Infinity ? Math.sqrt(square) : null;
}

/**
 * Find how many times as wide as high a rectangle is.
 *
 * @param corners - In order, in pixels of the photo.
 * @param middle - Of the photo.
 * @param focal - Of the camera, px.
 * @returns Width over height of the real thing.
 */
export function viewAspect(corners: Corners, middle: Point, focal: number): number {
  const { across, down } = directionsOf(corners, middle);
  const length = ([x, y, nearness]: Direction): number =>
    Math.hypot(x / focal, y / focal, nearness);
  return length(across) / length(down);
}
