import type { LightSide } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** Where the light comes from. */
export const light: TextOption<LightSide> = {
  flag: '--light <side>',
  help: 'where the light comes from: above, below, left, right, or a corner such as above-left (default: above)',
  parse: (text, { name, core }) => core.parseLight(text, name),
};
