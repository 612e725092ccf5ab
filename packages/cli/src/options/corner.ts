import { notExpected } from './not-expected.js';
import type { Core, TextOption } from './option.js';

type Corner = NonNullable<Parameters<Core['fillPhoto']>[1]['corner']>;

/** Which neighbour is asked for. */
export const corner: TextOption<Corner> = {
  flag: '--corner <side>',
  help: 'also say the --datum of the wall round the corner, so that courses run on: right, or left=60mm with the width of that wall',
  parse: (text, { name, core }) => {
    if (text === 'right') return { side: 'right' };
    const width = /^left=(.+)$/s.exec(text)?.[1];
    if (width !== undefined) return { side: 'left', width: core.parsePrintLength(width, name) };
    throw notExpected('right, or left=60mm with the width of the wall there,', name, text);
  },
};
