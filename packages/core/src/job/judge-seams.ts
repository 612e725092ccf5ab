import type { Warning } from '../errors/warning.js';
import type { InspectedSeam } from '../seam/inspected-seam.js';
import { warnOfMirror } from '../seam/warn-of-mirror.js';
import type { PerAxis } from '../surface/measurement.js';
import type { RepeatAxis } from './draw-seams.js';

/**
 * Warn of seams that still show where they were to go, and of ends that meet only as in a mirror.
 *
 * @param seams - Of the finished tile.
 * @param axis - Which way it was to repeat.
 * @returns A warning for every one.
 */
export function judgeSeams(seams: PerAxis<InspectedSeam>, axis: RepeatAxis): readonly Warning[] {
  const asked = axis === 'both' ? (['x', 'y'] as const) : [axis];
  const visible = asked
    .filter((which) => !seams[which].seamless)
    .map((which): Warning => {
      const way = which === 'x' ? 'side by side' : 'one above the other';
      const message = `a seam may still show where the picture repeats ${way}: look at it before printing`;
      return { code: 'visible-seam', message };
    });
  return [...visible, ...warnOfMirror(seams, axis)];
}
