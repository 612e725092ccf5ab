/** A stretch of text to be put in place of another. */
export interface Edit {
  /** Where it begins. */
  readonly start: number;
  /** Where what it replaces ends; `start` to replace nothing. */
  readonly end: number;
  /** What stands there instead. */
  readonly text: string;
}

/**
 * Change a text in places, and leave all the rest of it as it is.
 *
 * @param text - As it was.
 * @param edits - None reaching into another; those of one place in the order given.
 * @returns The new text, in pieces.
 */
export function editText(text: string, edits: readonly Edit[]): string[] {
  const pieces: string[] = [];
  let at = 0;
  for (const { start, end, text: piece } of edits.toSorted((a, b) => a.start - b.start)) {
    if (start < at) throw new Error('two edits reach into one another');
    pieces.push(text.slice(at, start), piece);
    at = end;
  }
  pieces.push(text.slice(at));
  return pieces;
}
