import type { Switch } from './option.js';

/** Whole pictures. */
export const keepClipped: Switch = {
  flag: '--keep-clipped',
  help: 'keep what never shows of a picture: without this, it is cut to what its clip, viewport and page show',
};
