import type { Switch } from './option.js';

/** Pictures in the drawing. */
export const embed: Switch = {
  flag: '--embed',
  help: 'put linked pictures into the drawing too: without this, what is embedded stays so, and what is linked stays linked',
};
