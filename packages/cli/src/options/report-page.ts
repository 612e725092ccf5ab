import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Where to show what a build came to. */
export const reportPage: TextOption<string> = {
  flag: '--report <file>',
  help: 'write one page (.html) to look at: what was found on each photo, three by three repeats, every part at its size, the sheets, warnings with what to do, and licences',
  parse: parsePath,
};
