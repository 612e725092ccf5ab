import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How far flanges stand out. */
export const width: TextOption<RealMm> = {
  flag: '--width <length>',
  help: 'from front to back over its flanges: told, they cast a shadow',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
