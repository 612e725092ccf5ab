/**
 * Word a number as a person reads it: so many digits, and no noughts behind the last that counts.
 *
 * @param value - Any finite number.
 * @param count - Digits that count; whole parts are never cut.
 * @returns `1.2`, `0.3721`, `4000`.
 */
export function inDigits(value: number, count = 4): string {
  if (value === 0) return '0';
  const whole = Math.floor(Math.log10(Math.abs(value))) + 1;
  return String(Number(value.toFixed(Math.min(20, Math.max(0, count - whole)))));
}
