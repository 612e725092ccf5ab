import type { TextOption } from './option.js';

/** What chance begins with. */
export const seed: TextOption<number> = {
  flag: '--seed <number>',
  help: 'another gives another tile of the same photos (default: 1)',
  parse: (text, { name, core }) => core.parseWhole(text, name, { least: 0, most: 2 ** 32 - 1 }),
};
