import { inDigits } from './in-digits.js';

/** A width and a height. */
export interface SizeMm {
  /** Millimetres from side to side. */
  readonly width: number;
  /** Millimetres from top to bottom. */
  readonly height: number;
}

/**
 * Word a width and a height in one unit.
 *
 * @param size - In millimetres.
 * @returns `4.8 x 3.6 m`, `120 x 80 mm`.
 */
export function inSize(size: SizeMm): string {
  const metres = Math.max(size.width, size.height) >= 1000;
  const part = (mm: number): string => inDigits(metres ? mm / 1000 : mm);
  return `${part(size.width)} x ${part(size.height)} ${metres ? 'm' : 'mm'}`;
}
