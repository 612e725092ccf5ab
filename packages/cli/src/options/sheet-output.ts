import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Where the pages go. */
export const sheetOutput: TextOption<string> & { readonly required: true } = {
  flag: '-o, --output <file>',
  help: "the PDF to write, or a picture of each page: .png, .tif, .jpg, .webp; .json for a printer's profile",
  required: true,
  parse: parsePath,
};
