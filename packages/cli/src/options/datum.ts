import { notExpected } from './not-expected.js';
import type { TextOption } from './option.js';
import { parseOffset } from './parse-offset.js';

/** Where the courses are counted from. */
export const datum: TextOption<{ readonly x: number; readonly y: number }> = {
  flag: '--datum <x,y>',
  help: 'where this piece lies on the whole wall, in mm of paper to the right and down, so that courses run on from piece to piece (default: 0,0)',
  parse: (text, reading) => {
    const parts = text.split(',');
    const [x, y] = parts;
    if (x === undefined || y === undefined || parts.length !== 2) {
      throw notExpected('a point such as 120,0', reading.name, text);
    }
    const signed = (part: string): number =>
      part.startsWith('-') ? 0 - parseOffset(part.slice(1), reading) : parseOffset(part, reading);
    return { x: signed(x), y: signed(y) };
  },
};
