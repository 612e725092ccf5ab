import type { TextOption } from './option.js';

/** How far pieces of one part overlap. */
export const overlap: TextOption<number> = {
  flag: '--overlap <length>',
  help: 'how far the pieces of a part larger than the paper overlap (default: 8mm)',
  parse: (text, { name, core }) => core.parseOffset(text, name),
};
