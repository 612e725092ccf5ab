import type { Warning } from '../errors/warning.js';
import type { Seam } from '../seam/inspect-seams.js';
import type { PerAxis } from '../surface/measurement.js';
import type { RepeatAxis } from './draw-seams.js';

/**
 * Warn of seams that still show where they were to go.
 *
 * @param seams - Of the finished tile.
 * @param axis - Which way it was to repeat.
 * @returns A warning for every seam that shows.
 */
export function judgeSeams(seams: PerAxis<Seam>, axis: RepeatAxis): readonly Warning[] {
  const asked = axis === 'both' ? (['x', 'y'] as const) : [axis];
  return asked
    .filter((which) => !seams[which].seamless)
    .map((which) => ({
      code: 'visible-seam',
      message: `a seam may still show where the picture repeats ${which === 'x' ? 'side by side' : 'one above the other'}: look at it before printing`,
    }));
}
