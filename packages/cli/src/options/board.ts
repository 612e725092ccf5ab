import type { RealMm } from '@gaugerod/core';
import type { TextOption } from './option.js';

/** How wide boards are. */
export const board: TextOption<RealMm> = {
  flag: '--board <length>',
  help: 'width of each board (default: 150mm; of boards that lap what is seen of each, 110mm)',
  parse: (text, { name, core }) => core.parseRealLength(text, name),
};
