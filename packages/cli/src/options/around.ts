import type { TextOption } from './option.js';

/** What of the ground is shown. */
export const around: TextOption<number> = {
  flag: '--around <length>',
  help: 'show so much paper round a panel, a frame or quoins, with their shadow on it (default: none, cut to shape)',
  parse: (text, { name, core }) => core.parseOffset(text, name),
};
