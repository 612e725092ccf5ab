import type { SeenWall } from './seen-wall.js';
import type { BedPoints } from './slant/add-beds.js';
import { toPhotoUnits } from './to-photo-units.js';

/**
 * Take the places of a wall's bed joints back to the photo.
 *
 * @param seen - The wall.
 * @returns All of them.
 */
export function toBedPoints(seen: SeenWall): BedPoints {
  const { k, x, y, weight } = seen.track.placed.points;
  return { ...toPhotoUnits(seen, x, y), k, weight };
}
