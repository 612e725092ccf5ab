import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Where the piece goes. */
export const fillOutput: TextOption<string> & { readonly required: true } = {
  flag: '-o, --output <file>',
  help: 'the picture to write: .png, .tif, .jpg or .webp, or .svg or .pdf of exactly the size asked for',
  required: true,
  parse: parsePath,
};
