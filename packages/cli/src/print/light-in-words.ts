import type { LightReport } from '@gaugerod/core';
import { inDigits } from './in-digits.js';

/**
 * Put in words how uneven the light of a photo was.
 *
 * @param light - As a job reports it, or null where it was left as it was.
 * @returns Words, or null where nothing was done.
 */
export function lightInWords(light: LightReport | null): string | null {
  if (light === null) return null;
  const { strengthPercent, lightest, darkest } = light;
  if (lightest === null || darkest === null) return 'even as it was';
  return `was ${inDigits(strengthPercent, 2)} % brighter at the ${lightest} than at the ${darkest}, and is even now`;
}
