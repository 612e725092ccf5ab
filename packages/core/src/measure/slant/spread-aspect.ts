import { applyHomography } from '../../numeric/homography.js';
import { layPlane, type PhotoSize, type Stand } from './lay-plane.js';

/**
 * Say how far the scale along the courses may be out against that down them, where the focal length
 * is not known: beds and perpends foreshorten by an angle that the horizon gives only together
 * with the focal length.
 *
 * @param stand - How the wall lies.
 * @param size - The photo.
 * @param spread - Standard uncertainty (k = 1) of the focal length, as a fraction.
 * @returns Standard uncertainty (k = 1), as a fraction; 0 where the camera stands square.
 */
export function spreadAspect(stand: Stand, size: PhotoSize, spread: number): number {
  const here = aspectOf(stand, size);
  const longer = aspectOf({ ...stand, focal: stand.focal * (1 + spread) }, size);
  return Math.abs(longer / here - 1);
}

// Level pixels for a step along the courses, over those for the same step square to them.
function aspectOf(stand: Stand, size: PhotoSize): number {
  const map = layPlane(stand, size);
  const [x, y] = [size.width / 2, size.height / 2];
  const length = Math.hypot(1, stand.slope);
  const [right, down] = [0.5 / length, (0.5 * stand.slope) / length];
  const at = (dx: number, dy: number): { x: number; y: number } =>
    applyHomography(map, x + dx, y + dy);
  const along = at(right, down).x - at(-right, -down).x;
  const across = at(-down, right).y - at(down, -right).y;
  return along / across;
}
