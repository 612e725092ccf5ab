import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How round corners are. */
export const root: TextOption<RealMm> = {
  flag: '--root <length>',
  help: 'radius of the rounded corners',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
