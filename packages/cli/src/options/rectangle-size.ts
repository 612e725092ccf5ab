import type { Core, TextOption } from './option.js';

/** How large the rectangle between the corners really is. */
export const rectangleSize: TextOption<ReturnType<Core['parseRealSize']>> = {
  flag: '--real-size <WxH>',
  help: 'how large the rectangle between --corners is in reality: 1.2x2.1m',
  parse: (text, { name, core }) => core.parseRealSize(text, name),
};
