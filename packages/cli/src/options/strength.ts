import type { TextOption } from './option.js';

/** How strong relief is. */
export const strength: TextOption<number> = {
  flag: '--strength <0-1>',
  help: 'how strong lines and shadows are (default: 0.7)',
  parse: (text, { name, core }) => core.parseShare(text, name),
};
