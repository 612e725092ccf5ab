import type { FormatRegion } from '@gaugerod/core';
import type { TextOption } from './option.js';

const regions = ['UK', 'EU', 'US', 'AU'] as const satisfies readonly FormatRegion[];

/** Where a wall stands whose bricks nobody named. */
export const wallRegion: TextOption<FormatRegion> = {
  flag: '--region <region>',
  help: `where the wall stands, if its bricks are not known: ${regions.join(', ')}`,
  parse: (text, { name, core }) => {
    const upper = text.trim().toUpperCase();
    return regions.find((known) => known === upper) ?? core.parseChoice(text, name, regions);
  },
};
