import type { Span } from '@gaugerod/core';
import type { ListOption } from './option.js';

/** Two points of the photo, as often as wanted. */
export const spans: ListOption<Span> = {
  flag: '--span <points>',
  help: 'two points of the photo in pixels from its top left corner, "x,y x,y", between which --length, --courses, --section or --brick goes; give it again for more spans, each with its --length',
  many: true,
  parse: (text, { name, core }) => core.parseSpan(text, name),
};
