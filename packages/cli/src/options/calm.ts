import type { Switch } from './option.js';

/** Replace what would catch the eye at each repeat. */
export const calm: Switch = {
  flag: '--calm',
  help: 'replace bricks and stains that would catch the eye at each repeat by ordinary ones from elsewhere in the tile',
};
