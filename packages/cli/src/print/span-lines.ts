import type { SpanReport } from '@gaugerod/core';
import type { Column } from './in-columns.js';
import { inDigits } from './in-digits.js';
import { inLength } from './in-length.js';

/**
 * Put several spans in words, each with how far it is from what all of them give.
 *
 * @param spans - As a job reports them.
 * @returns Pairs of a word and what is said of it; none for a single span, which agrees with itself.
 */
export function spanLines(spans: readonly SpanReport[] = []): Column[] {
  if (spans.length < 2) return [];
  return spans.map(({ lengthMm, px, mmPerPx, residualPercent, used }, i) => [
    `span ${i + 1}`,
    `${inLength(lengthMm)} on ${inDigits(px)} px, ${inDigits(mmPerPx)} mm per pixel, ${off(residualPercent)}${used ? '' : ', left out'}`,
  ]);
}

function off(percent: number): string {
  const much = inDigits(Math.abs(percent), 2);
  return Math.abs(percent) < 0.005 ? 'as measured' : `${much} % ${percent > 0 ? 'over' : 'under'}`;
}
