import { inDigits } from './in-digits.js';

/**
 * Word a length in the unit a person would choose.
 *
 * @param mm - Millimetres.
 * @returns `75 mm`, `4.8 m`.
 */
export function inLength(mm: number): string {
  return mm >= 1000 ? `${inDigits(mm / 1000)} m` : `${inDigits(mm)} mm`;
}
