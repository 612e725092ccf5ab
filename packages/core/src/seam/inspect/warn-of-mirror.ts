import type { Warning } from '../../errors/warning.js';
import type { PerAxis } from '../../surface/measurement.js';

/**
 * Warn of a picture of which one side is the other in a mirror.
 *
 * @param mirrored - Along which axes it is.
 * @param axis - Which way it is to repeat.
 * @returns A warning for each way in which it does.
 */
export function warnOfMirror(
  mirrored: PerAxis<boolean>,
  axis: 'x' | 'y' | 'both',
): readonly Warning[] {
  return (['x', 'y'] as const)
    .filter((which) => (axis === 'both' || axis === which) && mirrored[which])
    .map((which) => {
      const way = which === 'x' ? 'side by side' : 'one above the other';
      const message = `repeats ${way} as in a mirror: bricks come out double and the eye finds it`;
      return { code: 'mirrored', message };
    });
}
