/** What a property is set to. */
export interface Declared {
  /** As written, without `!important`. */
  readonly value: string;
  /** Whether it goes before what is not. */
  readonly important: boolean;
}

/** Properties by name, in lower case. */
export type Declarations = ReadonlyMap<string, Declared>;

// What decides where an element shows, how large, and which part of it. The rest is paint.
const placing =
  /^(-webkit-)?(clip|clip-path|mask|mask-.*|filter|transform|transform-.*|rotate|scale|translate|offset|offset-.*|overflow|overflow-.*|image-rendering|image-orientation|x|y|r|rx|ry|cx|cy|d|width|height|(min|max)-.*|zoom|animation|animation-.*|object-fit|object-position|perspective.*|contain|all)$/;

/**
 * Whether a property decides where an element shows, how large, or which part of it.
 *
 * @param name - Of the property, in lower case.
 * @returns Yes where it does.
 */
export function isPlacing(name: string): boolean {
  return placing.test(name);
}
