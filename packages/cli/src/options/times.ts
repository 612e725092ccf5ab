import type { TextOption } from './option.js';

/** How many times the photo. */
export const times: TextOption<{ readonly x: number; readonly y: number }> = {
  flag: '--times <CxR>',
  help: 'or so many times the photo across and down, 1 to 100 each: 4x3; without --scale it needs no measurement',
  parse: (text, { name, core }) => core.parseTimes(text, name),
};
