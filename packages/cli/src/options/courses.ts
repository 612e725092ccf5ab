import type { TextOption } from './option.js';

/** How many courses were counted. */
export const courses: TextOption<number> = {
  flag: '--courses <number>',
  help: 'how many courses you counted: over --span where given, else over the whole height of the picture (with --axis x, its width)',
  parse: (text, { name, core }) => core.parseWhole(text, name, { most: 99_999 }),
};
