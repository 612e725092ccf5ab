import type { TextOption } from './option.js';
import { parseOffset } from './parse-offset.js';

/** Room between parts. */
export const gap: TextOption<number> = {
  flag: '--gap <length>',
  help: 'from one part to the next, with marks and name between (default: 7mm, at least 3mm)',
  parse: parseOffset,
};
