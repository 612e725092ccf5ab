import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How deep the angles of a plate girder are. */
export const leg: TextOption<RealMm> = {
  flag: '--leg <length>',
  help: 'depth of the angles that join flange plates to the web of a plate girder',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
