import { basename, extname } from 'node:path';
import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import type { Size } from '../../units/parse-size.js';
import { toFigures } from '../to-figures.js';

/** Which letters a page has: those of the typeface of a PDF, or of the pen that letters pictures. */
export type Letters = 'type' | 'pen';

const letterer = new Intl.Segmenter('en', { granularity: 'grapheme' });

// What the typeface of a PDF has, and what the pen for pictures of pages has.
const known = { type: /^[\x20-\x7e\xa0-\xff]+$/, pen: /^[\x20-\x7e°±×–’]+$/ };

/**
 * Name a part on its page: its file, and what it measures.
 *
 * @param path - Of its file.
 * @param size - In mm.
 * @param letters - Which the page has.
 * @returns One line of them.
 */
export function labelOf(path: string, size: Size<number>, letters: Letters): string {
  const { width, height } = size;
  return `${inLetters(stemOf(path), letters)} ${toFigures(width, 4)} x ${toFigures(height, 4)} mm`;
}

/**
 * Say where a page has no letters for a part's name.
 *
 * @param path - Of its file.
 * @param letters - Which the page has.
 * @returns A warning, or none.
 */
export function warnOfLabel(path: string, letters: Letters): readonly Warning[] {
  const [stem, label] = [stemOf(path), inLetters(stemOf(path), letters)];
  if (label === stem) return [];
  const message = `the label of ${showPath(path)} reads "${showPath(label)}": pages have Latin letters alone`;
  return [{ code: 'label-letters', message }];
}

// One system stores a letter with its accent, another the two apart.
function stemOf(path: string): string {
  return basename(path, extname(path)).normalize('NFC');
}

// Accents are left off where there is no such letter; a letter of another script becomes a question
// mark.
function inLetters(name: string, letters: Letters): string {
  const isKnown = (text: string): boolean => known[letters].test(text);
  return Array.from(letterer.segment(name), ({ segment }) => segment)
    .map((letter) => {
      if (isKnown(letter)) return letter;
      const bare = letter.normalize('NFKD').replace(/\p{M}/gu, '');
      return isKnown(bare) ? bare : '?';
    })
    .join('');
}
