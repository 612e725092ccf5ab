import type { Seam } from '../../seam/inspect/inspect-seams.js';
import { toLevelPoint } from '../../surface/level-point.js';
import type { Measurement, PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

// Straightening that moves no corner by more than this share of the diagonal is but a touch.
const touch = 0.015;

/**
 * Tell whether a photo is a texture that somebody has levelled and cut to repeat: it is not to be
 * bent again. It meets itself both ways; or along its courses, and would hardly be changed.
 *
 * @param size - The photo, in pixels.
 * @param seams - How it meets itself.
 * @param lie - How its courses would have it straightened.
 * @returns Whether to leave it as it is.
 */
export function isFinished(
  size: Size<number>,
  seams: PerAxis<Seam>,
  lie: Pick<Measurement, 'rectification' | 'lattice'>,
): boolean {
  if (seams.x.seamless && seams.y.seamless) return true;
  const { rectification, lattice } = lie;
  if (rectification === null || !seams[lattice?.axis ?? 'y'].seamless) return false;
  const { width, height } = size;
  return [0, width].every((x) =>
    [0, height].every((y) => {
      const moved = toLevelPoint(rectification, size, { x, y });
      return Math.hypot(moved.x - x, moved.y - y) <= touch * Math.hypot(width, height);
    }),
  );
}
