import type { Point } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** Four corners of a rectangle in the photo. */
export const corners: TextOption<readonly Point[]> = {
  flag: '--corners <points>',
  help: 'the four corners of a rectangle in the photo, "x,y x,y x,y x,y" in pixels, by which it is straightened; with its real size, or with --course or --span in its plane',
  parse: (text, { name, core }) => core.parseCorners(text, name),
};
