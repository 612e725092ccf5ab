import type { Measurement, Size } from '@gaugerod/core/pure';

/**
 * Word a number in so many digits, whole parts never cut.
 *
 * @param value - Any finite number.
 * @param count - Digits that count.
 * @returns `1.2`, `0.3721`, `4000`.
 */
export function inDigits(value: number, count = 4): string {
  if (value === 0) return '0';
  const whole = Math.floor(Math.log10(Math.abs(value))) + 1;
  return String(Number(value.toFixed(Math.min(20, Math.max(0, count - whole)))));
}

/**
 * Word how large what a photo shows is.
 *
 * @param size - In mm.
 * @returns `4.8 × 3.6 m`.
 */
export function inSize(size: Size<number>): string {
  const { width, height } = size;
  const metres = Math.max(width, height) >= 1000;
  const part = (mm: number): string => inDigits(metres ? mm / 1000 : mm);
  return `${part(width)} × ${part(height)} ${metres ? 'm' : 'mm'}`;
}

/**
 * Word the scale of a measurement.
 *
 * @param measurement - As reckoned.
 * @returns `1.204 mm`, or one for each way.
 */
export function scaleInWords(measurement: Measurement): string {
  const { x, y } = measurement.mmPerPx;
  return x === y ? `${inDigits(x)} mm` : `${inDigits(x)} × ${inDigits(y)} mm`;
}

/**
 * Word how unsure a measurement is, rounded as the command rounds it.
 *
 * @param measurement - As reckoned.
 * @returns `1.2 %`, expanded (k = 2).
 */
export function unsureInWords(measurement: Measurement): string {
  const told = Number(measurement.uncertaintyPercent.toPrecision(3));
  // 1.45 lies a hair under itself in binary, and must not read as 1.4.
  return `${inDigits(told * (1 + 1e-12), 2)} %`;
}

/**
 * Word what a measurement's uncertainty is made of.
 *
 * @param measurement - As reckoned.
 * @returns Its parts, largest first, each one standard deviation in per cent.
 */
export function budgetInWords(measurement: Measurement): string {
  const parts = [...measurement.budget].sort((a, b) => b.percent - a.percent);
  const least = (parts[0]?.percent ?? 0) / 100;
  return parts
    .filter(({ percent }) => percent > least)
    .map(({ source, percent }) => `${source} ${inDigits(percent, 2)} %`)
    .join(', ');
}
