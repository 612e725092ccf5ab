import type { TextOption } from './option.js';
import { parseOffset } from './parse-offset.js';

/** Extra picture past the outline. */
export const bleed: TextOption<number> = {
  flag: '--bleed <length>',
  help: 'extra picture on every side, to be cut away (default: 0)',
  parse: parseOffset,
};
