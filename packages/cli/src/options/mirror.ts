import type { Switch } from './option.js';

/** Layers without print the other way round. */
export const mirror: Switch = {
  flag: '--mirror',
  help: 'mirror the layers without print, to be glued with their grey side inwards',
};
