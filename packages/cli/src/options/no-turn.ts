import type { Switch } from './option.js';

/** Parts stay upright. */
export const noTurn: Switch = {
  flag: '--no-turn',
  help: 'lay no part on its side to save paper',
};
