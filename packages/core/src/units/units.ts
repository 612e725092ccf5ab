import { outOfRange } from '../errors/out-of-range.js';

declare const unit: unique symbol;

/** Millimetres of the real thing. */
export type RealMm = number & { readonly [unit]: 'mm of the real thing' };
/** Millimetres of paper. */
export type PrintMm = number & { readonly [unit]: 'mm of paper' };
/** Pixels of a picture, seldom whole. */
export type Px = number & { readonly [unit]: 'px' };
/** Dots per inch (25.4 mm) of paper. */
export type Dpi = number & { readonly [unit]: 'dots per inch' };
/** Real over model: 148 for 1:148. */
export type ModelScale = number & { readonly [unit]: 'real over model' };

/**
 * Millimetres in an inch, exactly.
 *
 * @see International Yard and Pound Agreement, 1959
 */
export const mmPerInch = 25.4;

function positive(value: number, name: string): number {
  if (!(value > 0 && value < Infinity)) throw outOfRange('a finite number above 0', name, value);
  return value;
}

/**
 * Brand a length of the real thing.
 *
 * @param mm - Millimetres, finite and above 0.
 * @returns The same number, branded.
 * @throws RangeError when not finite or not above 0.
 */
export function realMm(mm: number): RealMm {
  return positive(mm, 'real millimetres') as RealMm;
}

/**
 * Brand a length on paper.
 *
 * @param mm - Millimetres, finite and above 0.
 * @returns The same number, branded.
 * @throws RangeError when not finite or not above 0.
 */
export function printMm(mm: number): PrintMm {
  return positive(mm, 'print millimetres') as PrintMm;
}

/**
 * Brand a length in pixels.
 *
 * @param value - Pixels, finite and above 0, seldom whole.
 * @returns The same number, branded.
 * @throws RangeError when not finite or not above 0.
 */
export function px(value: number): Px {
  return positive(value, 'pixels') as Px;
}

/**
 * Brand a print resolution.
 *
 * @param value - Dots per inch, finite and above 0.
 * @returns The same number, branded.
 * @throws RangeError when not finite or not above 0.
 */
export function dpi(value: number): Dpi {
  return positive(value, 'dpi') as Dpi;
}

/**
 * Brand a model scale.
 *
 * @param ratio - Real over model, 148 for 1:148; finite and above 0.
 * @returns The same number, branded.
 * @throws RangeError when not finite or not above 0.
 */
export function modelScale(ratio: number): ModelScale {
  return positive(ratio, 'model scale') as ModelScale;
}

/**
 * Bring a real length to paper.
 *
 * @param length - Of the real thing.
 * @param scale - Of the model.
 * @returns The same length on paper.
 */
export function toPrint(length: RealMm, scale: ModelScale): PrintMm {
  return (length / scale) as PrintMm;
}

/**
 * Bring a length on paper back to the real thing.
 *
 * @param length - On paper.
 * @param scale - Of the model.
 * @returns The same length of the real thing.
 */
export function toReal(length: PrintMm, scale: ModelScale): RealMm {
  return (length * scale) as RealMm;
}

/**
 * Count the dots along a length of paper, not rounded.
 *
 * @param length - On paper.
 * @param resolution - Dots per inch.
 * @returns Dots, seldom whole.
 */
export function toDots(length: PrintMm, resolution: Dpi): Px {
  return ((length * resolution) / mmPerInch) as Px;
}
