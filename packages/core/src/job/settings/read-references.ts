import { checkOwn, parseOwnId } from '../../catalogue/check-own.js';
import type { OwnReference } from '../../catalogue/own-reference.js';
import { TextureError } from '../../errors/texture-error.js';
import type { LimitOptions } from '../../limits/limits.js';
import { withLimits } from '../../read/held-limits.js';
import { BadJob } from '../build/bad-job.js';
import { parseYaml, readYaml, type YamlFile } from '../build/read-yaml.js';
import { checked, type Entry, takeKeys } from '../build/take-keys.js';
import { type ReferenceData, referenceFields, referenceForm } from './reference-form.js';

/** A file of references as read. */
export interface ReferenceFile {
  /** Its text. */
  readonly text: string;
  /** What it holds, in its order. */
  readonly references: readonly OwnReference[];
}

/**
 * Read a file of references.
 *
 * @param path - Where it lies.
 * @param options - What it may ask for.
 * @returns What it holds.
 * @throws TextureError `bad-references`, with file, line and column, or why the file cannot be read.
 */
export async function readReferences(
  path: string,
  options: LimitOptions = {},
): Promise<ReferenceFile> {
  return take(await withLimits(options, () => readYaml(path, referenceForm)));
}

/**
 * The same where it may not be there yet.
 *
 * @param path - Where it would lie.
 * @returns What it holds, or null.
 * @throws TextureError as above, but for a file that does not exist.
 */
export async function readIfThere(path: string): Promise<ReferenceFile | null> {
  try {
    return await readReferences(path);
  } catch (cause) {
    if (cause instanceof TextureError && cause.code === 'no-file') return null;
    throw cause;
  }
}

/**
 * The same of a text that is to become one.
 *
 * @param path - Where it is to lie, for messages alone.
 * @param text - Of it.
 * @returns What it holds.
 * @throws TextureError `bad-references`.
 */
export function parseReferences(path: string, text: string): ReferenceFile {
  return take(parseYaml(path, text, referenceForm));
}

function take({ text, data, explain }: YamlFile): ReferenceFile {
  const faults: BadJob[] = [];
  const entries = Object.entries((data as ReferenceData | null)?.references ?? {});
  const references = entries.flatMap(([id, entry]) => {
    try {
      return [takeReference(id, entry)];
    } catch (cause) {
      if (!(cause instanceof BadJob)) throw cause;
      faults.push(cause);
      return [];
    }
  });
  if (faults.length > 0) throw explain(faults);
  return { text, references };
}

function takeReference(id: string, entry: Entry): OwnReference {
  const path = ['references', id];
  checkId(id, path);
  const taken = takeKeys(referenceFields, entry, path);
  const { course, tolerance, source = '' } = taken;
  if (course === undefined || tolerance === undefined) throw new Error('not held against its form');
  const { name = id, kind = 'brick', length = null, width = null, joint = null } = taken;
  const { lengthTolerance = null } = taken;
  const own = { id, name, kind, course, tolerance, length, lengthTolerance, width, joint, source };
  checked(
    () => {
      checkOwn(own);
    },
    entry,
    path,
  );
  return own;
}

function checkId(id: string, path: readonly string[]): void {
  try {
    parseOwnId(id, 'a reference of your own');
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    throw new BadJob(path, cause.message, { atKey: true, hint: 'give it another id', cause });
  }
}
