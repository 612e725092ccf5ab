import type { Switch } from './option.js';

/** Keep the measurement. */
export const save: Switch = {
  flag: '--save',
  help: 'keep the measurement in a small file beside the photo (wall.surface.json), which the other commands then use',
};
