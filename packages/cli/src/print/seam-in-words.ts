import type { Seam } from '@gaugerod/core';
import { inDigits } from './in-digits.js';

/**
 * Word how visible a seam is.
 *
 * @param seam - Its score and verdict.
 * @returns `no seam (score 0.6)`, or that nobody can tell.
 */
export function seamInWords(seam: Seam): string {
  if (!seam.seamless && seam.seamScore <= 1) return 'too small to tell';
  const verdict = seam.seamless ? 'no seam' : 'a seam shows';
  const score = inDigits(seam.seamScore, 3);
  return `${verdict} (score ${score}, ${seam.seamless ? '1 would show' : '1 is the least that shows'})`;
}
