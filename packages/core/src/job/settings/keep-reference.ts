import type { LimitOptions } from '../../limits/limits.js';
import { withLimits } from '../../read/held-limits.js';
import { isDeepStrictEqual } from 'node:util';
import { Document, isMap, parseDocument } from 'yaml';
import { checkOwn, parseOwnId } from '../../catalogue/check-own.js';
import { nearNames } from '../../catalogue/near-names.js';
import type { OwnReference } from '../../catalogue/own-reference.js';
import { type CatalogueEntry, searchCatalogue } from '../../catalogue/search.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import { userFolder } from '../../read/user-folder.js';
import { writeReferences } from '../../write/write-references.js';
import {
  parseReferences,
  readIfThere,
  readReferences,
  type ReferenceFile,
} from './read-references.js';

/** What became of a reference of one's own. */
export interface KeptReference {
  /** It, and nothing else. */
  readonly entries: readonly CatalogueEntry[];
  /** What was done with it. */
  readonly done: 'added' | 'removed';
  /** The file that it was written into, or out of. */
  readonly file: string;
}

/**
 * Write a reference of one's own into a file, beside those that are there. What else stands in the file stays, its
 * comments too.
 *
 * @param path - Of the file, `.yaml`, which need not be there.
 * @param own - What to keep.
 * @param options - What the file may ask for.
 * @returns It, or that there is one of that id.
 * @throws RangeError when its id is the catalogue's or none, or its sizes make no sense together.
 * @throws TextureError when the file is none of references, or the place does not allow it.
 */
export async function addReference(
  path: string,
  own: OwnReference,
  options: LimitOptions = {},
): Promise<Outcome<KeptReference, 'reference-there'>> {
  parseOwnId(own.id);
  checkOwn(own);
  const add = async (): Promise<Outcome<Changed, 'reference-there'>> => {
    const before = (await readIfThere(path)) ?? { text: '', references: [] };
    return insert(path, own, before);
  };
  return withLimits(options, () => change(path, 'added', add));
}

function insert(
  path: string,
  own: OwnReference,
  before: ReferenceFile,
): Outcome<Changed, 'reference-there'> {
  const id = parseOwnId(own.id);
  if (before.references.some((reference) => reference.id === id)) {
    const message = `${showPath(path)} holds ${id} already`;
    const hint = `gaugerod reference --remove ${id} first, or choose another id`;
    return { ok: false, code: 'reference-there', message, hint };
  }
  const document = before.text === '' ? new Document({ gaugerod: 1 }) : parseDocument(before.text);
  if (before.text === '') document.commentBefore = ' Your own references, for gaugerod reference.';
  if (!isMap(document.get('references'))) document.set('references', document.createNode({}));
  document.setIn(['references', id], document.createNode(toEntry(own)));
  const text = String(document);
  parseReferences(path, text);
  return { ok: true, value: { text, own }, warnings: [] };
}

/**
 * Take a reference of one's own out of a file. What else stands in the file stays.
 *
 * @param path - Of the file.
 * @param id - Which one.
 * @param options - What the file may ask for.
 * @returns What it was, or that there is none of that id.
 * @throws TextureError when the file is none of references, or the place does not allow it.
 */
export async function removeReference(
  path: string,
  id: string,
  options: LimitOptions = {},
): Promise<Outcome<KeptReference, 'no-entry'>> {
  const remove = async (): Promise<Outcome<Changed, 'no-entry'>> =>
    takeOut(path, id, await readReferences(path));
  return withLimits(options, () => change(path, 'removed', remove));
}

function takeOut(
  path: string,
  id: string,
  { text, references }: ReferenceFile,
): Outcome<Changed, 'no-entry'> {
  const own = references.find((reference) => reference.id === id);
  if (own === undefined) {
    const ids = references.map((reference) => reference.id);
    const near = nearNames(id, ids);
    const there = ids.length === 0 ? 'it holds none' : `it holds ${ids.slice(0, 8).join(', ')}`;
    const hint = near.length > 0 ? `did you mean ${near.join(' or ')}?` : there;
    const message = `${showPath(path)} holds no reference called "${showPath(id)}"`;
    return { ok: false, code: 'no-entry', message, hint };
  }
  const document = parseDocument(text);
  document.deleteIn(['references', id]);
  const others = references.filter((reference) => reference !== own);
  const left = textOf(document);
  if (left === null || !isDeepStrictEqual(parseReferences(path, left).references, others)) {
    const lean = `others in ${showPath(path)} lean on ${showPath(id)}`;
    const hint = 'write them out first, without * and its name';
    throw new TextureError('bad-references', lean, { hint });
  }
  return { ok: true, value: { text: left, own }, warnings: [] };
}

// None where an alias has lost what it stands for.
function textOf(document: Document.Parsed): string | null {
  try {
    return String(document);
  } catch (cause) {
    if (cause instanceof Error && cause.message.startsWith('Unresolved alias')) return null;
    throw cause;
  }
}

interface Changed {
  readonly text: string;
  readonly own: OwnReference;
}

// What is refused is refused before anything is locked; then the file is read again, as others have left it.
async function change<Code extends string>(
  path: string,
  done: KeptReference['done'],
  edit: () => Promise<Outcome<Changed, Code>>,
): Promise<Outcome<KeptReference, Code>> {
  const first = await edit();
  if (!first.ok) return first;
  const changed = await writeReferences(path, userFolder(), edit);
  if (!changed.ok) return changed;
  const { own } = changed.value;
  return { ok: true, value: { entries: [entryOf(own)], done, file: path }, warnings: [] };
}

function toEntry(own: OwnReference): Readonly<Record<string, string>> {
  const { id, name, kind, course, tolerance, length, lengthTolerance, width, joint, source } = own;
  const sizes = { course, tolerance, length, lengthTolerance, width, joint };
  const told = Object.entries(sizes).filter(([, mm]) => mm !== null);
  return {
    ...(name !== id && { name }),
    ...(kind !== 'brick' && { kind }),
    ...Object.fromEntries(told.map(([key, mm]) => [key, `${mm ?? ''}mm`])),
    source,
  };
}

function entryOf(own: OwnReference): CatalogueEntry {
  const [entry] = searchCatalogue(own.id, [own]).filter((found) => found.own);
  if (entry === undefined) throw new Error('a reference is not found by its id');
  return entry;
}
