import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** A printed test strip. */
export const stripPhoto: TextOption<string> = {
  flag: '--strip-photo <file>',
  help: "instead, a scan or photo of that page as it was printed: writes the printer's profile, a .json",
  parse: parsePath,
};
