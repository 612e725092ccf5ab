import type { TextOption } from './option.js';

const axes = ['x', 'y', 'both'] as const;

/** Along which axis the picture is to repeat. */
export const axis: TextOption<(typeof axes)[number]> = {
  flag: '--axis <x|y|both>',
  help: 'side by side (x), one above the other (y), or both (default: both)',
  parse: (text, { name, core }) => core.parseChoice(text, name, axes),
};
