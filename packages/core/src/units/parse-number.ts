import { outOfRange } from '../errors/out-of-range.js';

/**
 * Take a strength.
 *
 * @param text - As typed: `0.3`.
 * @param name - What it is for, as the user knows it.
 * @returns 0 to 1.
 * @throws RangeError when it is anything else.
 */
export function parseShare(text: string, name: string): number {
  const value = /^(?:\d{1,3}(?:\.\d{0,9})?|\.\d{1,9})$/.test(text) ? Number(text) : NaN;
  if (!(value <= 1)) throw outOfRange('a number from 0 to 1', name, text);
  return value;
}

/** From where to where a whole number may lie. */
export interface WholeRange {
  /** The least: 1 unless told. */
  readonly least?: number;
  /** The most. */
  readonly most: number;
}

/**
 * Take a whole number.
 *
 * @param text - As typed.
 * @param name - What it is for, as the user knows it.
 * @param range - What it may be.
 * @returns The number.
 * @throws RangeError when it is anything else.
 */
export function parseWhole(text: string, name: string, range: WholeRange): number {
  const { least = 1, most } = range;
  const value = /^\d{1,10}$/.test(text) ? Number(text) : NaN;
  if (value >= least && value <= most) return value;
  throw outOfRange(`a whole number from ${least} to ${most}`, name, text);
}

/** From where to where a share may lie. */
export interface PercentRange {
  /** The least, per cent. */
  readonly least: number;
  /** The most, per cent. */
  readonly most: number;
}

/**
 * Take a share in per cent.
 *
 * @param text - As typed: `18%`.
 * @param name - What it is for, as the user knows it.
 * @param range - What it may be.
 * @returns The share, 1 being 100 %.
 * @throws RangeError when it is anything else.
 */
export function parsePercent(text: string, name: string, range: PercentRange): number {
  const { least, most } = range;
  const value = /^\d{1,3}(\.\d{1,4})? ?%$/.test(text) ? Number.parseFloat(text) : NaN;
  if (value >= least && value <= most) return value / 100;
  throw outOfRange(`${least} to ${most} % (such as ${(least + most) / 2}%)`, name, text);
}

/**
 * Take what is made more or less of.
 *
 * @param text - As typed: `1.2`.
 * @param name - What it is for, as the user knows it.
 * @returns 0, which is none, over 1, which is as it is, to 2.
 * @throws RangeError when it is anything else.
 */
export function parseFactor(text: string, name: string): number {
  const value = /^\d{1,2}(\.\d{1,4})?$/.test(text) ? Number(text) : NaN;
  if (value <= 2) return value;
  throw outOfRange('a number from 0 to 2', name, text);
}

/**
 * Take what a bar of 100 mm measures on a printed sheet.
 *
 * @param text - As typed: `99.4`, `99.4mm`.
 * @param name - Which of the printer's ways it is of, as the user knows it.
 * @returns Millimetres, 90 to 110.
 * @throws RangeError when it is anything else.
 */
export function parseBar(text: string, name: string): number {
  const value = /^\d{2,3}(\.\d{1,4})?( ?mm)?$/.test(text) ? Number.parseFloat(text) : NaN;
  if (value >= 90 && value <= 110) return value;
  throw outOfRange('what a bar of 100 mm measures on paper, 90 to 110,', name, text);
}

/**
 * Take how much of something is to be kept.
 *
 * @param text - As typed: `60`, `60%`.
 * @param name - Of what, as the user knows it.
 * @returns Per cent, 1 to 100.
 * @throws RangeError when it is anything else.
 */
export function parseKept(text: string, name: string): number {
  const percent = /^\d{1,3}(\.\d{1,9})?%?$/.test(text) ? Number.parseFloat(text) : NaN;
  if (percent >= 1 && percent <= 100) return percent;
  throw outOfRange('1 to 100 per cent', name, text);
}
