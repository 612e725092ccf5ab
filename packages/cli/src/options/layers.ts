import type { TextOption } from './option.js';

/** Layers of card a part is laminated of. */
export const layers: TextOption<number> = {
  flag: '--layers <number>',
  help: 'layers of card that each part is laminated of: the first carries the print, the others its shape (default: 1)',
  parse: (text, { name, core }) => core.parseWhole(text, name, { most: 100 }),
};
