import { inDigits } from '../units/in-digits.js';
import type { Size } from '../units/parse-size.js';

/** A model scale by its name, where it has one. */
export interface ScaleName {
  /** `N-UK`, or null. */
  readonly name: string | null;
  /** Real over model. */
  readonly ratio: number;
}

/**
 * Say a scale.
 *
 * @param scale - Which.
 * @returns Its name and ratio.
 */
export function scaleInWords(scale: ScaleName): string {
  const { name, ratio } = scale;
  return name === null ? `1:${inDigits(ratio, 6)}` : `${name} (1:${inDigits(ratio, 6)})`;
}

/**
 * Write a length on paper.
 *
 * @param mm - Millimetres.
 * @returns To a tenth, as far as a rule tells.
 */
export function onPaper(mm: number): string {
  return String(Math.round(mm * 10) / 10);
}

/**
 * Write a size on paper.
 *
 * @param size - Millimetres.
 * @returns `40 × 30 mm`.
 */
export function sizeOnPaper(size: Size<number>): string {
  return `${onPaper(size.width)} × ${onPaper(size.height)} mm`;
}

/**
 * Write a size of the real thing.
 *
 * @param size - Millimetres.
 * @returns In metres where it is one or more across.
 */
export function realSize(size: Size<number>): string {
  const { width, height } = size;
  if (Math.max(width, height) < 1000) return `${inDigits(width, 3)} × ${inDigits(height, 3)} mm`;
  return `${inDigits(width / 1000, 3)} × ${inDigits(height / 1000, 3)} m`;
}

/**
 * Count things.
 *
 * @param many - How many.
 * @param one - The word for one.
 * @param more - The word for more; with an s unless told.
 * @returns `1 part`, `3 parts`.
 */
export function count(many: number, one: string, more = `${one}s`): string {
  return `${many} ${many === 1 ? one : more}`;
}

/**
 * Join names.
 *
 * @param names - In order.
 * @returns `a, b and c`.
 */
export function listed(names: readonly string[]): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
}
