import type { TextOption } from './option.js';

/** Room between parts. */
export const gap: TextOption<number> = {
  flag: '--gap <length>',
  help: 'from one part to the next, with marks and name between (default: 7mm, at least 3mm)',
  parse: (text, { name, core }) => core.parseOffset(text, name),
};
