import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How large rivets are. */
export const rivetHead: TextOption<RealMm> = {
  flag: '--rivet-head <length>',
  help: 'diameter of a head (default: 30mm, of a rivet of 3/4 in)',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
