import type { TextOption } from './option.js';
import { parseOffset } from './parse-offset.js';

/** Extra picture past the outline. */
export const bleed: TextOption<number> = {
  flag: '--bleed <length>',
  help: 'extra picture past the outer edge, to be cut away; windows get none (default: 0)',
  parse: parseOffset,
};
