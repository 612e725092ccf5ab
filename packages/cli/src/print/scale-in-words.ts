import type { ScaleReport } from '@gaugerod/core';
import { inDigits } from './in-digits.js';

/**
 * Word a model scale.
 *
 * @param scale - Real over model, and its name where it has one.
 * @returns `1:148 (N-UK)`, `1:76.2`.
 */
export function scaleInWords(scale: ScaleReport): string {
  const ratio = `1:${inDigits(scale.ratio, 6)}`;
  return scale.name === null ? ratio : `${ratio} (${scale.name})`;
}
