import type { TextOption } from './option.js';

/** How much of the photo must be kept. */
export const keep: TextOption<number> = {
  flag: '--keep <percent>',
  help: 'keep at least this much of the photo in the tile (default: 60)',
  parse: (text, { name, core }) => {
    // Number() alone would take '', ' ', '0x10' and '1e309'.
    const percent = /^\d{1,3}(\.\d{1,9})?%?$/.test(text) ? Number(text.replace('%', '')) : NaN;
    if (!(percent >= 1 && percent <= 100)) throw core.outOfRange('1 to 100 per cent', name, text);
    return percent;
  },
};
