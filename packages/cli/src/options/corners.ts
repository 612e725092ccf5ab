import type { Point } from '@gaugerod/core';
import { notExpected } from './not-expected.js';
import type { TextOption } from './option.js';

/** Four corners of a rectangle in the photo. */
export const corners: TextOption<readonly Point[]> = {
  flag: '--corners <points>',
  help: 'the four corners of a rectangle in the photo, "x,y x,y x,y x,y" in pixels, by which it is straightened; with its real size, or with --course or --span in its plane',
  parse: (text, { name, core }) => {
    const points = text.trim().split(/\s+/);
    if (points.length !== 4) {
      throw notExpected('four points such as "120,80 560,90 550,420 110,400"', name, text);
    }
    return points.map((point) => core.parsePoint(point, name));
  },
};
