import type { Switch, TextOption } from './option.js';

/** Layers of card. */
export const layers: Switch = {
  flag: '--layers',
  help: 'to be built up from card: beside the whole, a file for each layer that is glued on it, flanges or the panels of a door say, cut to shape',
};

/** How thick that is. */
export const card: TextOption<number> = {
  flag: '--card <length>',
  help: 'how thick the card of --layers is; nothing is cut narrower (default: 0.5mm)',
  parse: (text, { name, core }) => core.parseOffset(text, name),
};
