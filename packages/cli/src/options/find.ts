import type { TextOption } from './option.js';
import { parseFolder } from './parse-folder.js';

/** Where missing pictures may be. */
export const find: TextOption<string> = {
  flag: '--find <dir>',
  help: 'look for missing pictures in this folder and those inside it: by name, then by name without extension',
  parse: parseFolder,
};
