import type { Switch } from './option.js';

/** Turn the photo level, but leave it in perspective. */
export const levelOnly: Switch = {
  flag: '--level-only',
  help: 'turn the photo until its courses lie level, and leave perspective and lens as they are',
};
