import type { Switch } from './option.js';

/** Write nothing. */
export const report: Switch = {
  flag: '--report',
  help: 'only say what would be done, and write nothing',
};
