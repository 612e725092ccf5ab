import type { PrintingReport } from '@gaugerod/core';
import { inDigits } from './in-digits.js';

/**
 * Put in words what was done to colours for print.
 *
 * @param report - As a job reports it, or null where nothing was asked for.
 * @returns A line; null where nothing was asked for.
 */
export function printingInWords(report: PrintingReport | null): string | null {
  if (report === null) return null;
  const { printer, dotGain, inkLimit, saturation, sharpen } = report;
  const done = [
    ...(printer === null ? [] : [`colours sent by ${printer}`]),
    ...(dotGain === 0 ? [] : [`lighter for a dot gain of ${inDigits(100 * dotGain)} %`]),
    ...(inkLimit === 3 ? [] : [`ink up to ${inDigits(100 * inkLimit)} %`]),
    ...(saturation === 1 ? [] : [`saturation ${inDigits(saturation)}`]),
    ...(sharpen === 0 ? [] : [`sharpened by ${inDigits(sharpen)}`]),
  ];
  return done.length === 0 ? 'as it is' : done.join(', ');
}
