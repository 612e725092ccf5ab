import type { TextOption } from './option.js';

/** How much is done at once. */
export const jobs: TextOption<number> = {
  flag: '--jobs <number>',
  help: 'how many parts are made at a time (default: one for each processor, up to 4)',
  parse: (text, { name, core }) => core.parseWhole(text, name, { most: 64 }),
};
