import type { Core, TextOption } from './option.js';
import { parseShape } from './parse-shape.js';

type Along = NonNullable<Parameters<Core['makeRelief']>[1]['along']>;

/** What a piece is bent along. */
export const along: TextOption<Along> = {
  flag: '--along <svg[#id]>',
  help: 'or a path at its size on paper that the middle of its depth follows, an arch say: arch.svg, or bridge.svg#arch where that holds several',
  parse: parseShape,
};
