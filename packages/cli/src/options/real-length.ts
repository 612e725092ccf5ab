import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How long the real thing is. */
export const realLength: TextOption<RealMm> = {
  flag: '--length <length>',
  help: 'how long the piece is in reality: 9.9m, 32ft6in',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
