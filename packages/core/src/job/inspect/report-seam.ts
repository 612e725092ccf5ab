import type { Seam } from '../../seam/inspect/inspect-seams.js';
import { toFigures } from '../to-figures.js';

/**
 * Report a seam.
 *
 * @param seam - As inspected.
 * @returns The same, its score in as many figures as mean something.
 */
export function reportSeam(seam: Seam): Seam {
  const { seamScore, seamless } = seam;
  return { seamScore: toFigures(seamScore, 6), seamless };
}
