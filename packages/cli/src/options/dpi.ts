import type { Dpi } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How fine the printer prints. */
export const dpi: TextOption<Dpi> = {
  flag: '--dpi <number>',
  help: 'dots per inch of the print (default: 600)',
  parse: (text, { name, core }) => core.parseDpi(text, name),
};
