import type { TextOption } from './option.js';

const axes = ['x', 'y', 'both'] as const;

/** Which way a picture that repeats is to go on repeating. */
export const repeat: TextOption<(typeof axes)[number]> = {
  flag: '--repeat <x|y|both>',
  help: 'keep a tile one: it goes on repeating side by side (x), one above the other (y), or both; streaks, damp and what grows on ledges need a top and a foot, so they go with x alone',
  parse: (text, { name, core }) => core.parseChoice(text, name, axes),
};
