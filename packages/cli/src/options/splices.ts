import type { RealMm } from '@gaugerod/core';
import type { ListOption } from './option.js';

/** Where the web is joined. */
export const splices: ListOption<RealMm> = {
  flag: '--splice <length>',
  help: 'a plate over a joint of the web, its middle so far from the left end; give it again for more',
  many: true,
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
