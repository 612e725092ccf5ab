import type { PerAxis } from '../surface/measurement.js';
import type { PictureHeader } from './headers/header.js';
import type { ExifFields } from './read-exif.js';

function judge(dpi: PerAxis<number> | null): PerAxis<number> | null {
  if (dpi === null) return null;
  return [dpi.x, dpi.y].every((value) => value >= 10 && value <= 10_000) ? dpi : null;
}

/**
 * Tell a picture's print resolution as its file says it.
 *
 * @param header - What the format's own fields say.
 * @param exif - What the camera's notes say, where those say nothing.
 * @param orientation - How it was stored, 1 to 8: 5 to 8 lie on their sides.
 * @returns Dots per inch of the upright picture, or null where nobody says, or nothing between 10
 * and 10,000.
 */
export function uprightDpi(
  header: PictureHeader,
  exif: ExifFields,
  orientation: number,
): PerAxis<number> | null {
  const dpi = judge(header.dpi) ?? judge(exif.dpi);
  return dpi !== null && orientation >= 5 ? { x: dpi.y, y: dpi.x } : dpi;
}
