import type { Switch } from './option.js';

/** The length is of the real thing. */
export const real: Switch = {
  flag: '--real',
  help: 'LENGTH is of the real thing; tell what it is on paper (as without)',
};
