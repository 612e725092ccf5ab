import type { TextOption } from './option.js';

/** How true a JPEG is. */
export const quality: TextOption<number> = {
  flag: '--quality <1-100>',
  help: 'how true a .jpg is (default: 92); every other kind is true to the last bit',
  parse: (text, { name, core }) => core.parseWhole(text, name, { most: 100 }),
};
