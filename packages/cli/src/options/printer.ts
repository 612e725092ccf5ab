import type { Reading, TextOption } from './option.js';

const parse = (text: string, { name, core }: Reading): number => core.parseBar(text, name);

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
