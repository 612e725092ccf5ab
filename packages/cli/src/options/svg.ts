import type { TextOption } from './option.js';

/** What an SVG holds. */
export const svg: TextOption<'baked' | 'pattern'> = {
  flag: '--svg <kind>',
  help: 'what an .svg holds: baked, the part as one picture, or pattern, its shape filled with one repeat, a smaller file that shows fine lines in some programs (default: baked)',
  parse: (text, { name, core }) => core.parseChoice(text, name, ['baked', 'pattern']),
};
