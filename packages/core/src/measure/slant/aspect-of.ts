import { type Stand, toWallAxes } from './lay-plane.js';

/**
 * Find how much less a wall is foreshortened along its courses than square to them, at the middle of
 * a photo.
 *
 * @param stand - How it lies.
 * @returns Length on the wall of a step along the courses over that of the same step square to them.
 */
export function aspectOf(stand: Stand): number {
  const { slope, focal, ahead } = stand;
  const { bed, fall, normal } = toWallAxes(stand);
  const middle = [-ahead.u / focal, -ahead.v / focal, 1] as const;
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
  const near = dot(normal, middle);
  // How far along an axis of the wall a step in the photo leads.
  const reach = (axis: readonly number[], step: readonly number[]): number =>
    dot(axis, step) - (dot(axis, middle) / near) * dot(normal, step);
  return reach(bed, [1, slope, 0]) / reach(fall, [-slope, 1, 0]);
}
