import type { Switch } from './option.js';

/** Leave the light as it is. */
export const noEven: Switch = {
  flag: '--no-even',
  help: 'leave the light as it is: without this, slow changes of light and colour are taken out',
};
