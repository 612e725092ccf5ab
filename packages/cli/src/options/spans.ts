import type { Span } from '@gaugerod/core';
import { notExpected } from './not-expected.js';
import type { ListOption } from './option.js';

/** Two points of the photo, as often as wanted. */
export const spans: ListOption<Span> = {
  flag: '--span <points>',
  help: 'two points of the photo in pixels from its top left corner, "x,y x,y", between which --length, --courses, --section or --brick goes; give it again for more spans, each with its --length',
  many: true,
  parse: (text, { name, core }) => {
    const points = text.trim().split(/\s+/);
    const [from, to] = points;
    if (from === undefined || to === undefined || points.length !== 2) {
      throw notExpected('two points such as "120,80 120,680"', name, text);
    }
    return [core.parsePoint(from, name), core.parsePoint(to, name)];
  },
};
