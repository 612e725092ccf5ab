import { notExpected } from './not-expected.js';
import type { TextOption } from './option.js';

/** What a frame holds. */
export const panes: TextOption<{ readonly x: number; readonly y: number }> = {
  flag: '--panes <CxR>',
  help: 'columns and rows of panes in a frame (default: 2x2) or of panels in a door (1x2)',
  parse: (text, { name }) => {
    const [, x, y] = /^\s*(\d{1,3})\s*[x×]\s*(\d{1,3})\s*$/i.exec(text) ?? [];
    if (x === undefined || y === undefined) {
      throw notExpected('columns and rows such as 2x3', name, text);
    }
    return { x: Number(x), y: Number(y) };
  },
};
