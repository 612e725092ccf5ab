import type { TextOption } from './option.js';

/** How much of the photo must be kept. */
export const keep: TextOption<number> = {
  flag: '--keep <percent>',
  help: 'keep at least this much of the photo in the tile (default: 60)',
  parse: (text, { name, core }) => core.parseKept(text, name),
};
