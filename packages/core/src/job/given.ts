/**
 * Leave out what nobody told.
 *
 * @param values - By name, undefined where nothing is known.
 * @returns The others.
 */
export function given<Values extends object>(values: {
  readonly [Name in keyof Values]: Values[Name] | undefined;
}): Partial<Values> {
  const told = Object.entries(values).filter(([, value]) => value !== undefined);
  return Object.fromEntries(told) as Partial<Values>;
}
