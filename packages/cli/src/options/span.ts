import type { Point } from '@gaugerod/core';
import { notExpected } from './not-expected.js';
import type { TextOption } from './option.js';

/** Two points of the photo. */
export const span: TextOption<readonly [Point, Point]> = {
  flag: '--span <points>',
  help: 'two points of the photo in pixels from its top left corner, "x,y x,y", between which --length or --courses goes',
  parse: (text, { name, core }) => {
    const points = text.trim().split(/\s+/);
    const [from, to] = points;
    if (from === undefined || to === undefined || points.length !== 2) {
      throw notExpected('two points such as "120,80 120,680"', name, text);
    }
    return [core.parsePoint(from, name), core.parsePoint(to, name)];
  },
};
