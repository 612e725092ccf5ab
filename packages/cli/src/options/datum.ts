import type { TextOption } from './option.js';

/** Where the courses are counted from. */
export const datum: TextOption<{ readonly x: number; readonly y: number }> = {
  flag: '--datum <x,y>',
  help: 'where this piece lies on the whole wall, in mm of paper to the right and down, so that courses run on from piece to piece (default: 0,0)',
  parse: (text, { name, core }) => core.parsePlace(text, name, 'a point such as 120,0'),
};
