import type { Switch } from './option.js';

/** What lies deeper. */
export const sunk: Switch = {
  flag: '--sunk',
  help: 'a panel, or the panels of a door, lie deeper than what is round them',
};
