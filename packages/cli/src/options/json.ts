import type { Switch } from './option.js';

/** Print the result for programs. */
export const json: Switch = {
  flag: '--json',
  help: 'print the result as one JSON object, for programs',
};
