/**
 * Word what is wrong with an option's text, as the library words it.
 *
 * @param expected - What would have been right.
 * @param name - The option.
 * @param text - What came instead.
 * @returns An error to throw.
 */
export function notExpected(expected: string, name: string, text: string): RangeError {
  const shown = text.length > 80 ? `${text.slice(0, 77)}...` : text;
  return new RangeError(`expected ${expected} for ${name}, got ${JSON.stringify(shown)}`);
}
