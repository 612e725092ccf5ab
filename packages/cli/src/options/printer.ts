import { notExpected } from './not-expected.js';
import type { Reading, TextOption } from './option.js';

function parse(text: string, { name }: Reading): number {
  const value = /^\d{2,3}(\.\d{1,4})?( ?mm)?$/.test(text) ? Number.parseFloat(text) : NaN;
  if (value >= 90 && value <= 110) return value;
  throw notExpected('what a bar of 100 mm measures on paper, 90 to 110,', name, text);
}

/** The printer's error across. */
export const printerX: TextOption<number> = {
  flag: '--printer-x <mm>',
  help: "what the 100 mm bar along the foot of an earlier print measures (99.4): evens out the printer's error",
  parse,
};

/** The printer's error along the feed. */
export const printerY: TextOption<number> = {
  flag: '--printer-y <mm>',
  help: 'the same for the bar up the side',
  parse,
};
