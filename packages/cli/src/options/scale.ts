import type { NamedScale } from '@gaugerod/core';
import type { TextOption } from './option.js';
import { readOptions } from './read-options.js';
import { region as regionOption } from './region.js';

/** The model's scale. */
export const scale: TextOption<NamedScale> & { readonly required: true } = {
  flag: '--scale <scale>',
  help: 'the scale of the model: a ratio (1:148) or a name with its region (N-UK)',
  hint: 'gaugerod reference scale lists the names',
  required: true,
  parse: (text, { name, texts, ...surroundings }) => {
    const { core, settings } = surroundings;
    const { region } = readOptions({ region: regionOption }, texts, surroundings);
    const usual = settings.values.region?.text;
    return core.findScale(text, {
      name,
      ...(region !== undefined && { region }),
      ...(usual !== undefined && { usualRegion: usual }),
    });
  },
};
