// A value as a message may show it: short, on one line, whatever it was.
function show(value: unknown): string {
  if (typeof value === 'string')
    return JSON.stringify(value.length > 80 ? `${value.slice(0, 77)}...` : value);
  if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value);
  if (value === null || value === undefined || typeof value === 'boolean') return String(value);
  return typeof value;
}

/**
 * Word a caller's mistake the one way this library words them.
 *
 * @param expected - What would have been right: `a length above 0`.
 * @param name - The argument's or option's name: `length`.
 * @param got - What came instead.
 * @returns A RangeError to throw: `expected a length above 0 for length, got -3`.
 */
export function outOfRange(expected: string, name: string, got: unknown): RangeError {
  return new RangeError(`expected ${expected} for ${name}, got ${show(got)}`);
}
