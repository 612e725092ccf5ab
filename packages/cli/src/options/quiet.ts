import type { Switch } from './option.js';

/** Leave out progress and warnings. */
export const quiet: Switch = {
  flag: '--quiet',
  help: 'print the result or the error, no progress and no warnings',
};
