import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How thick a web is. */
export const web: TextOption<RealMm> = {
  flag: '--web <length>',
  help: 'thickness of the web',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
