import type { TextOption } from './option.js';

const axes = ['x', 'y'] as const;

/** Which way courses are counted. */
export const courseAxis: TextOption<(typeof axes)[number]> = {
  flag: '--axis <x|y>',
  help: 'count courses down the photo (y), or across where they stand upright, as boards and corrugated sheet do (x) (default: y)',
  parse: (text, { name, core }) => core.parseChoice(text, name, axes),
};
