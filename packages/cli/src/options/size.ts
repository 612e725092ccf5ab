import type { Core, TextOption } from './option.js';

/** How big the print is to be. */
export const size: TextOption<ReturnType<Core['parsePrintSize']>> = {
  flag: '--size <WxH>',
  help: 'size on paper: 120x80mm',
  parse: (text, { name, core }) => core.parsePrintSize(text, name),
};
