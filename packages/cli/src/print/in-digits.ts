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
  // 5.55 lies a hair under itself in binary, and must not read as 5.5.
  const held = value * (1 + 1e-12);
  return String(Number(held.toFixed(Math.min(20, Math.max(0, count - whole)))));
}
