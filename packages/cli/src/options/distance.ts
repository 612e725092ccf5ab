import type { StatedLength } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How far away the photo was taken. */
export const distance: TextOption<StatedLength> = {
  flag: '--distance <length>',
  help: 'from the camera to the wall (4.5m): with the focal length in the photo an estimate, 5 % at best; beside another reference a check of it',
  parse: (text, { name, core }) => core.parseStatedLength(text, name),
};
