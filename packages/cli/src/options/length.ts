import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** The real length of the span. */
export const length: TextOption<RealMm> = {
  flag: '--length <length>',
  help: 'how long --span is in reality: 1.2m, 8ft6in',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
