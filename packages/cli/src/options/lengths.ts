import type { StatedLength } from '@gaugerod/core';
import type { ListOption } from './option.js';

/** The real lengths of the spans. */
export const lengths: ListOption<StatedLength> = {
  flag: '--length <length>',
  help: 'how long --span is in reality: 1.2m, 8ft6in, or with how far that may be off, 1981mm+-3mm',
  many: true,
  parse: (text, { name, core }) => core.parseStatedLength(text, name),
};
