import type { TextOption } from './option.js';
import { parsePath } from './parse-path.js';

/** Where to draw what a measurement rests on. */
export const overlay: TextOption<string> = {
  flag: '--overlay <file>',
  help: 'write a picture that shows what the measurement rests on: every joint found, the courses numbered, a scale bar, and what was left out',
  parse: parsePath,
};
