import type { NamedScale } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** The model's scale. */
export const scale: TextOption<NamedScale> & { readonly required: true } = {
  flag: '--scale <scale>',
  help: 'the scale of the model: a ratio (1:148) or a name with its region (N-UK)',
  hint: 'gaugerod reference scale lists the names',
  required: true,
  parse: (text, { name, core, texts }) => {
    const { region } = texts;
    return core.findScale(text, typeof region === 'string' ? { name, region } : { name });
  },
};
