import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Where the picture goes. */
export const output: TextOption<string> & { readonly required: true } = {
  flag: '-o, --output <file>',
  help: 'the picture to write: .png, .tif, .jpg or .webp',
  required: true,
  parse: parsePath,
};
