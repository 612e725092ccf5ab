import { inDigits, type Measurement, type Size, uncertaintyInWords } from '@gaugerod/core/pure';

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
  return `${uncertaintyInWords(measurement.uncertaintyPercent)} %`;
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
