import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How far stiffeners lie apart. */
export const stiffeners: TextOption<RealMm> = {
  flag: '--stiffeners <length>',
  help: 'plates that stand on the web, as thick as it is, from one to the next: 1.2m',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
