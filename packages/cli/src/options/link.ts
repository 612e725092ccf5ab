import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Pictures beside the drawing. */
export const link: TextOption<string> = {
  flag: '--link <dir>',
  help: 'write all pictures into this folder, and link to them',
  parse: parsePath,
};
