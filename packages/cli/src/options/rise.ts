import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How far something stands out. */
export const rise: TextOption<RealMm> = {
  flag: '--rise <length>',
  help: 'how far it stands out, or, sunk, how deep it lies: as long a shadow (default: panel and frame 25mm, quoins 20mm, lapped boards 16mm, door 12mm)',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
