import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How far rivets lie apart. */
export const rivets: TextOption<RealMm> = {
  flag: '--rivets <length>',
  help: 'rows of rivets, from one to the next: 4in',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
