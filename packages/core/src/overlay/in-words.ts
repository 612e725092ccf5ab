/**
 * Word a number with as many digits as count.
 *
 * @param value - Any finite number.
 * @param digits - How many, 1 to 15; whole parts are never cut.
 * @returns `1.2`, `0.3721`, `4000`.
 */
export function inWords(value: number, digits = 4): string {
  const whole = value === 0 ? 1 : Math.floor(Math.log10(Math.abs(value))) + 1;
  return String(Number(value.toFixed(Math.max(0, Math.min(12, digits - whole)))));
}
