import type { RealMm } from '@gaugerod/core';
import type { ListOption } from './option.js';

/** Plates that end short of the girder. */
export const covers: ListOption<RealMm> = {
  flag: '--cover <length>',
  help: 'a plate on each flange, so long, in the middle, as thick as the flange: it adds to the depth; give it again for shorter ones on it',
  many: true,
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
