import type { Switch } from './option.js';

/** The length is on paper. */
export const print: Switch = {
  flag: '--print',
  help: 'LENGTH is on paper; tell what it is of the real thing',
};
