import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How wide splice plates are. */
export const spliceWidth: TextOption<RealMm> = {
  flag: '--splice-width <length>',
  help: 'of a splice plate, from side to side (default: 300mm)',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
