import type { Switch } from './option.js';

/** Leave the photo as it is. */
export const noRectify: Switch = {
  flag: '--no-rectify',
  help: 'take the photo as it is, without straightening it',
};
