import { notExpected } from './not-expected.js';
import type { TextOption } from './option.js';
import { parsePlace } from './parse-place.js';

/** Where the courses are counted from. */
export const datum: TextOption<{ readonly x: number; readonly y: number }> = {
  flag: '--datum <x,y>',
  help: 'where this piece lies on the whole wall, in mm of paper to the right and down, so that courses run on from piece to piece (default: 0,0)',
  parse: (text, reading) => {
    const point = parsePlace(text, reading);
    if (point === null) throw notExpected('a point such as 120,0', reading.name, text);
    return point;
  },
};
