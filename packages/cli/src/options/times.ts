import type { TextOption } from './option.js';

/** How many times the photo. */
export const times: TextOption<{ readonly x: number; readonly y: number }> = {
  flag: '--times <CxR>',
  help: 'or so many times the photo across and down, 1 to 100 each: 4x3; the one way that needs no measurement',
  parse: (text, { name, core }) => {
    const found = /^(\d{1,3}(?:\.\d{1,6})?)[x×](\d{1,3}(?:\.\d{1,6})?)$/i.exec(text);
    const [x = NaN, y = NaN] = (found ?? []).slice(1).map(Number);
    const fits = x >= 1 && y >= 1 && x <= 100 && y <= 100;
    if (!fits)
      throw core.outOfRange('times across and down, 1 to 100 each, such as 4x3', name, text);
    return { x, y };
  },
};
