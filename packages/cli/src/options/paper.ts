import type { Core, TextOption } from './option.js';

/** What the sheets are printed on. */
export const paper: TextOption<ReturnType<Core['findPaper']>> = {
  flag: '--paper <name|WxH>',
  help: 'the paper (default: A4): A0 to A5, Letter, Legal, Tabloid, "A4 landscape", or its size',
  parse: (text, { name, core }) => core.findPaper(text, name),
};
