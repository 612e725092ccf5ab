import type { Switch } from './option.js';

/** A page to learn a printer from. */
export const testStrip: Switch = {
  flag: '--test-strip',
  help: 'instead of parts, a page of patches to print and to learn the printer from',
};
