import type { NamedScale } from '@gaugerod/core';
import type { TextOption } from './option.js';
import { scale } from './scale.js';

/** The model's scale, for a command that can do without. */
export const modelScale: TextOption<NamedScale> = {
  flag: scale.flag,
  help: 'make it at print resolution, for this scale: a ratio (1:148) or a name with its region (N-UK)',
  hint: 'gaugerod reference scale lists the names',
  parse: scale.parse,
};
