/** A plane projective map: nine numbers, row by row, that take `[x, y, 1]` to `[x', y', 1]` times a factor. */
export type Homography = readonly [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];

/**
 * Map a point.
 *
 * @param map - From one plane to the other.
 * @param x - Of the point.
 * @param y - Of the point.
 * @returns Where it goes; not finite where it goes to the horizon.
 * @see R. Hartley and A. Zisserman, Multiple View Geometry in Computer Vision, 2.3
 */
export function applyHomography(map: Homography, x: number, y: number): { x: number; y: number } {
  const w = map[6] * x + map[7] * y + map[8];
  return {
    x: (map[0] * x + map[1] * y + map[2]) / w,
    y: (map[3] * x + map[4] * y + map[5]) / w,
  };
}
