/** A word, and what is said of it; null leaves the line out. */
export type Column = readonly [string, string | null];

/**
 * Line up pairs of a word and what is said of it.
 *
 * @param pairs - Top to bottom.
 * @returns One line a pair, indented.
 */
export function inColumns(pairs: readonly Column[]): string[] {
  const told = pairs.filter(([, said]) => said !== null);
  const width = Math.max(...told.map(([word]) => word.length)) + 2;
  return told.map(([word, said]) => `  ${word.padEnd(width)}${said ?? ''}`);
}
