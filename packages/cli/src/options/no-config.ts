import type { Switch } from './option.js';

/** Leave out what is set for all commands. */
export const noConfig: Switch = {
  flag: '--no-config',
  help: 'leave out what is set in files of defaults, and references of your own',
};
