import type { TextOption } from './option.js';

/** How often each part is printed. */
export const copies: TextOption<number> = {
  flag: '--copies <number>',
  help: 'how often each part is printed (default: 1); a file named twice is printed twice as well',
  parse: (text, { name, core }) => core.parseWhole(text, name, { most: 100 }),
};
