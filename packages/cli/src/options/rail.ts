import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How wide rails and stiles are. */
export const rail: TextOption<RealMm> = {
  flag: '--rail <length>',
  help: 'width of what goes round a frame (default: 75mm) or a door (100mm)',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
