import { notExpected } from './not-expected.js';
import type { TextOption } from './option.js';

/** How many courses were counted. */
export const courses: TextOption<number> = {
  flag: '--courses <number>',
  help: 'how many courses you counted: over --span where given, else over the whole height of the picture (with --axis x, its width)',
  parse: (text, { name }) => {
    const count = /^\d{1,5}$/.test(text) ? Number(text) : NaN;
    if (!(count >= 1)) throw notExpected('a whole number from 1 to 99999', name, text);
    return count;
  },
};
