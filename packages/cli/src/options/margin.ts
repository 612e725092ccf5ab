import type { TextOption } from './option.js';

/** What the printer cannot reach. */
export const margin: TextOption<number> = {
  flag: '--margin <length>',
  help: 'what the printer leaves white along every edge of the paper (default: 5mm)',
  parse: (text, { name, core }) => core.parseOffset(text, name),
};
