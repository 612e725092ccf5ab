import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Where to draw the repeat. */
export const picture: TextOption<string> = {
  flag: '--picture <file>',
  help: 'write a picture that shows the repeat: the seams brought to the middle and marked, beside a 3x3 tiling',
  parse: parsePath,
};
