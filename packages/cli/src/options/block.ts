import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How high quoins are. */
export const block: TextOption<RealMm> = {
  flag: '--block <length>',
  help: 'height of each quoin (default: 300mm)',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
