import { BadJob, type JobPath } from './bad-job.js';
import { type FieldsOf, readFields } from './fields/field.js';

/** What a key holds, as written. */
export type Entry = Readonly<Record<string, unknown>>;

/**
 * Take the keys of an entry.
 *
 * @param fields - Those that are meant.
 * @param entry - As written, or undefined where nothing is.
 * @param path - Where it stands.
 * @returns What they come to.
 * @throws BadJob for the first that cannot be meant.
 */
export function takeKeys<Values extends object>(
  fields: FieldsOf<Values>,
  entry: Entry | undefined,
  path: JobPath,
): Partial<Values> {
  return readFields(fields, entry ?? {}, (key, take) => {
    try {
      return take(key);
    } catch (cause) {
      throw asBadJob(cause, [...path, key], entry ?? {});
    }
  });
}

// What a job calls otherwise than the file.
const names = new Map<string, string>([
  ['spans', 'span'],
  ['lengths', 'length'],
  ['rectangleSize', 'rectangle'],
  ['covers', 'cover'],
  ['splices', 'splice'],
  ['ledges', 'ledge'],
  ['stringCourses', 'stringCourse'],
  ['isOpeningsLit', 'openings'],
  ['isSunk', 'sunk'],
  ['isUpright', 'upright'],
  ['fixings', 'fixing'],
]);

/**
 * Let a job check options, and lay what it refuses at the key that holds it.
 *
 * @param check - Throws a RangeError for what cannot be.
 * @param entry - As written.
 * @param path - Where it stands.
 * @returns What the check gave.
 * @throws BadJob likewise.
 */
export function checked<Value>(check: () => Value, entry: Entry, path: JobPath): Value {
  try {
    return check();
  } catch (cause) {
    const name = nameIn(cause);
    const key = name === null ? null : keyOf(name, entry);
    const isThere = key !== null && Object.hasOwn(entry, key);
    throw asBadJob(cause, isThere ? [...path, key] : path, entry);
  }
}

function nameIn(cause: unknown): string | null {
  if (!(cause instanceof RangeError)) return null;
  return / for ([a-zA-Z]+), got /.exec(cause.message)?.[1] ?? null;
}

function keyOf(name: string, entry: Entry): string {
  return Object.hasOwn(entry, name) ? name : (names.get(name) ?? name);
}

function asBadJob(cause: unknown, path: JobPath, entry: Entry): unknown {
  if (!(cause instanceof RangeError) || !cause.message.startsWith('expected ')) return cause;
  const message = cause.message
    .replace(/ for ([a-zA-Z]+), got /, (_, name: string) => ` for ${keyOf(name, entry)}, got `)
    .replace(/got undefined$/, 'got nothing');
  return new BadJob(path, message, { cause });
}
