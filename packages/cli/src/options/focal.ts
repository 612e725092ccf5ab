import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** The lens. */
export const focal: TextOption<RealMm> = {
  flag: '--focal <length>',
  help: 'focal length as on a 35 mm camera (28mm), where the photo does not say it: for --distance, and to make a slanted wall surer',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
