import type { TextOption } from './option.js';
import { parseFolder } from './parse-folder.js';

/** Pictures beside the drawing. */
export const link: TextOption<string> = {
  flag: '--link <dir>',
  help: 'write all pictures into this folder, and link to them',
  parse: parseFolder,
};
