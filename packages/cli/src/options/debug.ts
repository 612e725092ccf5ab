import type { Switch } from './option.js';

/** Print stack traces. */
export const debug: Switch = {
  flag: '--debug',
  help: 'where it fails, print the stack trace as well',
};
