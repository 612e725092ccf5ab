import { outOfRange } from '../../../errors/out-of-range.js';
import { parseChoice } from '../../../units/parse-choice.js';
import { parsePlace, type Place } from '../../../units/parse-place.js';

/** What a key of a job file may hold, and what it comes to. */
export interface Field<Value> {
  /** The same as a JSON Schema, with what it is in words. */
  readonly schema: Readonly<Record<string, unknown>>;
  /** Take what is written there; throws a RangeError, with `name` in it, for what cannot be meant. */
  readonly read: (written: unknown, name: string) => Value;
}

/** Keys of one kind of entry, by what they come to. */
export type FieldsOf<Values> = {
  readonly [Name in keyof Values]-?: Field<NonNullable<Values[Name]>>;
};

type Parse<Value> = (text: string, name: string) => Value;

// A bare number is a text that YAML took for one.
const textual = ['string', 'number'];

function toText(written: unknown, name: string): string {
  if (typeof written === 'string') return written;
  if (typeof written === 'number' && Number.isFinite(written)) return String(written);
  throw outOfRange('a text or a number', name, written);
}

/**
 * A key that holds a text or a number.
 *
 * @param description - What it is, a few words with an example.
 * @param parse - What takes it.
 * @returns The key.
 */
export function text<Value>(description: string, parse: Parse<Value>): Field<Value> {
  return {
    schema: { description, type: textual },
    read: (written, name) => parse(toText(written, name), name),
  };
}

/**
 * A key that holds one of a few words.
 *
 * @param description - What it is.
 * @param choices - The words.
 * @returns The key.
 */
export function choice<const Choice extends string>(
  description: string,
  choices: readonly Choice[],
): Field<Choice> {
  return {
    schema: { description, enum: choices },
    read: (written, name) => parseChoice(toText(written, name), name, choices),
  };
}

/**
 * A key that holds `true` or `false`.
 *
 * @param description - What is so when it is true.
 * @returns The key.
 */
export function yesOrNo(description: string): Field<boolean> {
  return {
    schema: { description, type: 'boolean' },
    read: (written, name) => {
      if (typeof written === 'boolean') return written;
      throw outOfRange('true or false', name, written);
    },
  };
}

/**
 * A key that holds one text, or a list of them.
 *
 * @param description - What one is, with an example.
 * @param parse - What takes one.
 * @returns The key.
 */
export function several<Value>(description: string, parse: Parse<Value>): Field<readonly Value[]> {
  return {
    schema: { description, type: [...textual, 'array'], items: { type: textual }, minItems: 1 },
    read: (written, name) =>
      (Array.isArray(written) ? written : [written]).map((one) => parse(toText(one, name), name)),
  };
}

/**
 * A key that holds a place: a text such as `120,0`, or a list of two lengths.
 *
 * @param description - What it is.
 * @returns The key.
 */
export function place(description: string): Field<Place> {
  return {
    schema: {
      description,
      type: ['string', 'array'],
      items: { type: textual },
      minItems: 2,
      maxItems: 2,
    },
    read: (written, name) => {
      const typed = Array.isArray(written)
        ? written.map((one) => toText(one, name)).join(',')
        : toText(written, name);
      return parsePlace(typed, name, 'a place such as [120, 0]');
    },
  };
}

/**
 * Put keys into a JSON Schema.
 *
 * @param fields - What may stand there.
 * @returns Their schemas, as the properties of an entry.
 */
export function keysOf<Values>(fields: FieldsOf<Values>): Field<unknown>['schema'] {
  const entries = Object.entries<Field<unknown>>(fields);
  return Object.fromEntries(entries.map(([key, { schema }]) => [key, schema]));
}

/**
 * Take what an entry holds.
 *
 * @param fields - Its keys.
 * @param entry - As written.
 * @param read - Takes one key.
 * @returns What they come to: absent where nothing is written.
 */
export function readFields<Values extends object>(
  fields: FieldsOf<Values>,
  entry: Readonly<Record<string, unknown>>,
  read: (key: string, take: (name: string) => unknown) => unknown,
): Partial<Values> {
  const taken = Object.entries<Field<unknown>>(fields)
    .filter(([key]) => Object.hasOwn(entry, key))
    .map(([key, field]) => [key, read(key, (name) => field.read(entry[key], name))]);
  return Object.fromEntries(taken) as Partial<Values>;
}
