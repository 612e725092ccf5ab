import type { Dpi } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** What pictures are made for that do not say. */
export const sheetDpi: TextOption<Dpi> = {
  flag: '--dpi <number>',
  help: 'dots per inch of parts whose files do not say, and of pages written as pictures (default there: 600)',
  parse: (text, { name, core }) => core.parseDpi(text, name),
};
