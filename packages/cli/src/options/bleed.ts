import type { TextOption } from './option.js';

/** Extra picture past the outline. */
export const bleed: TextOption<number> = {
  flag: '--bleed <length>',
  help: 'extra picture past the outer edge, to be cut away; windows get none (default: 0)',
  parse: (text, { name, core }) => core.parseOffset(text, name),
};
