import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How thick a flange is. */
export const flange: TextOption<RealMm> = {
  flag: '--flange <length>',
  help: 'thickness of a flange, of a leg or of a flange plate; of an i, channel, angle or tee as of a rolled section about as deep, unless told',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
