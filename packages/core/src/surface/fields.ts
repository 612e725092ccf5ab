/** A value in a file of ours is not what it must be; the message names the key. */
export class BadField extends Error {}

/** A JSON object, of which nothing is believed. */
export interface Fields {
  /** Where it stands, to name its keys by: empty at the top, else `photo.` and the like. */
  readonly at: string;
  /** As parsed. */
  readonly values: object;
}

function show(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'an object';
  if (typeof value !== 'string') return String(value);
  return value.length > 40 ? `a text of ${value.length} letters` : JSON.stringify(value);
}

function bad({ at }: Fields, key: string, expected: string, got: unknown): BadField {
  const name = `${at}${key}`;
  return new BadField(
    got === undefined
      ? `${name} is missing: expected ${expected}`
      : `expected ${expected} for ${name}, got ${show(got)}`,
  );
}

// An object's own value: never one that every object has.
function own({ values }: Fields, key: string): unknown {
  return Object.hasOwn(values, key) ? Reflect.get(values, key) : undefined;
}

/**
 * Take a JSON object as what fields are read from.
 *
 * @param value - As parsed.
 * @returns It.
 * @throws BadField when it is none.
 */
export function topFields(value: unknown): Fields {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
    return { at: '', values: value };
  }
  throw new BadField(`expected an object, got ${show(value)}`);
}

/**
 * Tell whether a field is left out or null.
 *
 * @param fields - The object.
 * @param key - Of the field.
 * @returns True where there is nothing.
 */
export function isNothing(fields: Fields, key: string): boolean {
  return (own(fields, key) ?? null) === null;
}

/**
 * Read an object within an object.
 *
 * @param fields - The object.
 * @param key - Of the field.
 * @returns What it holds.
 * @throws BadField when it is no object.
 */
export function readFields(fields: Fields, key: string): Fields {
  const value = own(fields, key);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw bad(fields, key, 'an object', value);
  }
  return { at: `${fields.at}${key}.`, values: value };
}

/** Ends of a range; both belong to it. */
export interface Range {
  /** Least. */
  readonly min: number;
  /** Most. */
  readonly max: number;
  /** Whether only whole numbers will do. */
  readonly whole?: boolean;
}

/**
 * Read a number.
 *
 * @param fields - The object.
 * @param key - Of the field.
 * @param range - Where it must lie.
 * @returns A finite number within the range.
 * @throws BadField when it is anything else.
 */
export function readNumber(fields: Fields, key: string, range: Range): number {
  const { min, max, whole = false } = range;
  const value = own(fields, key);
  const fits = typeof value === 'number' && value >= min && value <= max;
  if (fits && (!whole || Number.isInteger(value))) return value;
  throw bad(fields, key, `${whole ? 'a whole number' : 'a number'} of ${min} to ${max}`, value);
}

/**
 * Read a text.
 *
 * @param fields - The object.
 * @param key - Of the field.
 * @param pattern - What it must match, with words for it; by default 1 to 1000 letters.
 * @returns It.
 * @throws BadField when it is anything else.
 */
export function readText(
  fields: Fields,
  key: string,
  pattern: readonly [matches: RegExp, expected: string] = [
    /^[^]{1,1000}$/,
    'a text of 1 to 1000 letters',
  ],
): string {
  const value = own(fields, key);
  if (typeof value === 'string' && pattern[0].test(value)) return value;
  throw bad(fields, key, pattern[1], value);
}

/**
 * Read a yes or no.
 *
 * @param fields - The object.
 * @param key - Of the field.
 * @returns It.
 * @throws BadField when it is anything else.
 */
export function readFlag(fields: Fields, key: string): boolean {
  const value = own(fields, key);
  if (typeof value === 'boolean') return value;
  throw bad(fields, key, 'true or false', value);
}

/**
 * Read one of a few words.
 *
 * @param fields - The object.
 * @param key - Of the field.
 * @param words - The choices.
 * @returns The one that stands there.
 * @throws BadField when it is anything else.
 */
export function readWord<Word extends string>(
  fields: Fields,
  key: string,
  words: readonly Word[],
): Word {
  const value = own(fields, key);
  const found = words.find((word) => word === value);
  if (found !== undefined) return found;
  throw bad(fields, key, `one of ${words.join(', ')}`, value);
}

/**
 * Read a list of numbers.
 *
 * @param fields - The object.
 * @param key - Of the field.
 * @param length - How many there must be.
 * @returns Finite numbers.
 * @throws BadField when it is anything else.
 */
export function readNumbers(fields: Fields, key: string, length: number): readonly number[] {
  const value = own(fields, key);
  if (Array.isArray(value) && value.length === length) {
    const numbers = value.filter((item): item is number => Number.isFinite(item));
    if (numbers.length === length) return numbers;
  }
  throw bad(fields, key, `a list of ${length} finite numbers`, value);
}
