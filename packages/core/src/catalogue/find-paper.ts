import { outOfRange } from '../errors/out-of-range.js';
import { parsePrintSize, type Size } from '../units/parse-size.js';
import { type PrintMm, printMm } from '../units/units.js';
import { nearNames } from './near-names.js';
import { papers } from './papers.js';

/** A sheet of paper. */
export interface Paper extends Size<PrintMm> {
  /** `A4`, or null where a size was typed. */
  readonly name: string | null;
}

/**
 * Find a paper.
 *
 * @param text - A name in any case (`A4`, `letter`), which is upright; the same and `landscape`
 *   (`A4 landscape`); or a size (`329x483mm`).
 * @param name - What the paper is for, as the user knows it: `--paper`.
 * @returns Its sides.
 * @throws RangeError when it is none of these.
 */
export function findPaper(text: string, name = 'paper'): Paper {
  const typed = text.trim().toLowerCase();
  const lying = /[ -]landscape$/.test(typed);
  const bare = typed.replace(/[ -](landscape|portrait)$/, '');
  const entry = papers.find((paper) => paper.name.toLowerCase() === bare);
  if (entry !== undefined) {
    const [width, height] = [printMm(entry.widthMm), printMm(entry.heightMm)];
    const sides = lying ? { width: height, height: width } : { width, height };
    return { name: lying ? `${entry.name} landscape` : entry.name, ...sides };
  }
  if (/^[\d.]/.test(typed)) return { name: null, ...parsePrintSize(text, name) };
  const names = papers.map((paper) => paper.name);
  const [near] = nearNames(bare, names);
  const like = near === undefined ? '' : `, such as ${near},`;
  throw outOfRange(`${names.join(', ')} or a size such as 329x483mm${like}`, name, text);
}
