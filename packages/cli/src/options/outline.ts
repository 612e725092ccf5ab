import type { Core, TextOption } from './option.js';
import { parsePath } from './parse-path.js';

type Outline = NonNullable<Parameters<Core['fillPhoto']>[1]['outline']>;

/** The shape of the piece. */
export const outline: TextOption<Outline> = {
  flag: '--outline <svg[#id]>',
  help: 'or the shape to cover, windows and all, at its size in a drawing: front.svg, or front.svg#gable where that holds several; transparent outside, its top left corner on the datum',
  parse: (text, { name }) => {
    const [, path, id] = /^(.*\.svg)#(.+)$/is.exec(text) ?? [];
    if (path === undefined || id === undefined) return { path: parsePath(text, { name }) };
    return { path: parsePath(path, { name }), id };
  },
};
