import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Where to write a page to point with. */
export const page: TextOption<string> = {
  flag: '--page <file>',
  help: 'write a page (.html) to open in a browser: it shows the photo and what was found in it, and you drag the ends of a length, the corners of a rectangle or a row of courses to their places instead of typing them; it keeps the measurement, or gives you the command',
  parse: parsePath,
};
