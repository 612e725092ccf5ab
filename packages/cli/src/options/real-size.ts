import type { Core, TextOption } from './option.js';

/** How big the real thing is that the print stands for. */
export const realSize: TextOption<ReturnType<Core['parseRealSize']>> = {
  flag: '--real-size <WxH>',
  help: 'or size of the real thing: 9.9x4.2m',
  parse: (text, { name, core }) => core.parseRealSize(text, name),
};
