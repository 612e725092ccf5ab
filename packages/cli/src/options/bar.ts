import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How wide glazing bars are. */
export const bar: TextOption<RealMm> = {
  flag: '--bar <length>',
  help: 'width of what parts the panes of a frame (default: 25mm) or the panels of a door (100mm)',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
