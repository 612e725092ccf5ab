/**
 * Make an object once something of it is asked for: of what is costly to make, often nobody asks.
 *
 * @param make - Makes it, once at most.
 * @param keys - Its properties.
 * @param known - Those that are known without it.
 * @returns An object with these properties, which are copied as any other's.
 */
export function whenAsked<Made extends object>(
  make: () => Made,
  keys: readonly (keyof Made & string)[],
  known: Partial<Made> = {},
): Made {
  let made: Made | undefined;
  const get = (key: keyof Made): (() => unknown) =>
    key in known ? () => known[key] : () => (made ??= make())[key];
  const getters = keys.map((key) => [key, { get: get(key), enumerable: true }] as const);
  return Object.defineProperties({}, Object.fromEntries(getters)) as Made;
}
