import type { TextOption } from './option.js';

/** What lies under relief where there is no photo. */
export const colour: TextOption<string> = {
  flag: '--colour <colour>',
  help: 'instead of a photo: #7a543e, firebrick (default: a grey)',
  parse: (text) => text,
};
