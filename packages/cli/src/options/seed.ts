import { notExpected } from './not-expected.js';
import type { TextOption } from './option.js';

/** What chance begins with. */
export const seed: TextOption<number> = {
  flag: '--seed <number>',
  help: 'another gives another tile of the same photos (default: 1)',
  parse: (text, { name }) => {
    const value = /^\d{1,10}$/.test(text) ? Number(text) : NaN;
    if (!(value < 2 ** 32)) throw notExpected('a whole number from 0 to 4294967295', name, text);
    return value;
  },
};
