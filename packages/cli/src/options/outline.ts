import type { Core, TextOption } from './option.js';
import { parseShape } from './parse-shape.js';

type Outline = NonNullable<Parameters<Core['fillPhoto']>[1]['outline']>;

/** The shape of the piece. */
export const outline: TextOption<Outline> = {
  flag: '--outline <svg[#id]>',
  help: 'or the shape to cover, windows and all, at its size in a drawing: front.svg, or front.svg#gable where that holds several; transparent outside, its top left corner on the datum',
  parse: parseShape,
};
