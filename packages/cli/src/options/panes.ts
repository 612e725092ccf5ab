import type { TextOption } from './option.js';

/** What a frame holds. */
export const panes: TextOption<{ readonly x: number; readonly y: number }> = {
  flag: '--panes <CxR>',
  help: 'columns and rows of panes in a frame (default: 2x2) or of panels in a door (1x2)',
  parse: (text, { name, core }) => core.parseGrid(text, name),
};
