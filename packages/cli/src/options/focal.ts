import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** The lens. */
export const focal: TextOption<RealMm> = {
  flag: '--focal <length>',
  help: 'focal length as on a 35 mm camera (28mm), for --distance where the photo does not say it',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
