import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Where the drawing goes. */
export const drawingOutput: TextOption<string> = {
  flag: '-o, --output <file>',
  help: 'the drawing to write: .svg',
  parse: parsePath,
};
