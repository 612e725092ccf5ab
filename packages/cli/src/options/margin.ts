import type { TextOption } from './option.js';
import { parseOffset } from './parse-offset.js';

/** What the printer cannot reach. */
export const margin: TextOption<number> = {
  flag: '--margin <length>',
  help: 'what the printer leaves white along every edge of the paper (default: 5mm)',
  parse: parseOffset,
};
