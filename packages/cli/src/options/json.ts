import type { Switch } from './option.js';

/** Print the result for programs. */
export const json: Switch = {
  flag: '--json',
  help: 'print the result as one JSON object, for programs',
};

/** The same, of a command that may have many. */
export const jsonLines: Switch = {
  ...json,
  help: 'print each result as a JSON object in a line of its own, for programs',
};
