import type { Core, TextOption } from './option.js';

type Corner = NonNullable<Parameters<Core['fillPhoto']>[1]['corner']>;

/** Which neighbour is asked for. */
export const corner: TextOption<Corner> = {
  flag: '--corner <side>',
  help: 'also say the --datum of the wall round the corner, so that courses run on: right, or left=60mm with the width of that wall',
  parse: (text, { name, core }) => core.parseCorner(text, name),
};
