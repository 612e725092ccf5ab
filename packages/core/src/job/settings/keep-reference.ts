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
import { parseReferences, readIfThere, readReferences } from './read-references.js';

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
 * @returns It, or that there is one of that id.
 * @throws RangeError when its id is the catalogue's or none, or its sizes make no sense together.
 * @throws TextureError when the file is none of references, or the place does not allow it.
 */
export async function addReference(
  path: string,
  own: OwnReference,
): Promise<Outcome<KeptReference, 'reference-there'>> {
  const id = parseOwnId(own.id);
  checkOwn(own);
  const before = (await readIfThere(path)) ?? { text: '', references: [] };
  if (before.references.some((reference) => reference.id === id)) {
    const message = `${showPath(path)} holds ${id} already`;
    const hint = `gaugerod reference --remove ${id} first, or choose another id`;
    return { ok: false, code: 'reference-there', message, hint };
  }
  const document = before.text === '' ? new Document({ gaugerod: 1 }) : parseDocument(before.text);
  if (before.text === '') document.commentBefore = ' Your own references, for gaugerod reference.';
  if (!isMap(document.get('references'))) document.set('references', document.createNode({}));
  document.setIn(['references', id], document.createNode(toEntry(own)));
  await keep(path, before.text, String(document));
  return { ok: true, value: { entries: [entryOf(own)], done: 'added', file: path }, warnings: [] };
}

/**
 * Take a reference of one's own out of a file. What else stands in the file stays.
 *
 * @param path - Of the file.
 * @param id - Which one.
 * @returns What it was, or that there is none of that id.
 * @throws TextureError when the file is none of references, or the place does not allow it.
 */
export async function removeReference(
  path: string,
  id: string,
): Promise<Outcome<KeptReference, 'no-entry'>> {
  const { text, references } = await readReferences(path);
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
  await keep(path, text, String(document));
  return {
    ok: true,
    value: { entries: [entryOf(own)], done: 'removed', file: path },
    warnings: [],
  };
}

// Whatever comes of it is read back before anything is written, and nobody else's change is written over.
async function keep(path: string, before: string, text: string): Promise<void> {
  parseReferences(path, text);
  if (((await readIfThere(path))?.text ?? '') !== before) {
    throw new TextureError('changed-input', `${showPath(path)} was changed in the meantime`, {
      hint: 'try again',
    });
  }
  await writeReferences(path, text, userFolder());
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
