import type { Switch } from './option.js';

/** Boards that stand. */
export const upright: Switch = {
  flag: '--upright',
  help: 'planks stand, side by side: a fence, a door, boarding',
};
