import type { TextOption } from './option.js';

/** Whose photo it is. */
export const credit: TextOption<string> = {
  flag: '--credit <text>',
  help: 'whose photo it is, kept with --save',
  parse: (text, { name, core }) => core.parseNote(text, name),
};
