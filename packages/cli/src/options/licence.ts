import type { TextOption } from './option.js';

/** Under which terms the photo may be used. */
export const licence: TextOption<string> = {
  flag: '--licence <text>',
  help: 'the terms under which the photo may be used, kept with --save',
  parse: (text, { name, core }) => core.parseNote(text, name),
};
