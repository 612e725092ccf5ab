import type { Seam } from '@gaugerod/core';
import { inDigits } from './in-digits.js';

/**
 * Word how visible a seam is.
 *
 * @param seam - Its score and verdict.
 * @returns `no seam (score 0.6)`.
 */
export function seamInWords(seam: Seam): string {
  const verdict = seam.seamless ? 'no seam' : 'a seam shows';
  return `${verdict} (score ${inDigits(seam.seamScore, 3)})`;
}
