import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How deep a piece is. */
export const depth: TextOption<RealMm> = {
  flag: '--depth <length>',
  help: 'how deep the piece is, from its top to its foot',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
