import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How long boards are. */
export const boardLength: TextOption<RealMm> = {
  flag: '--board-length <length>',
  help: 'how long boards are, which end in joints (default: as long as the piece)',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
