import type { TextOption } from './option.js';
import { parseWhole } from './parse-whole.js';

/** Layers of card a part is laminated of. */
export const layers: TextOption<number> = {
  flag: '--layers <number>',
  help: 'layers of card that each part is laminated of: the first carries the print, the others its shape (default: 1)',
  parse: (text, reading) => parseWhole(text, reading, 100),
};
