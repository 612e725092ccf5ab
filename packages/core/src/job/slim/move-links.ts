import { dirname, join, posix, relative } from 'node:path';
import type { Drawing } from '../../drawing/drawing.js';
import type { Edit } from '../../drawing/edit-text.js';
import { type FileLink, listLinks } from '../../drawing/list-links.js';
import { escapeText } from '../../drawing/markup.js';
import { findLinked, realFolder } from '../../read/find-linked.js';

import { type LinkPlace, toHref } from './slim-links.js';

/**
 * Let a drawing's links lead to where they led, from another folder. What they name need not be there.
 *
 * @param drawing - As it lies in the old one.
 * @param place - Both folders.
 * @param isMeant - Which links; all unless told.
 * @returns The edits: none where the folder is the same.
 */
export function moveLinks(
  drawing: Drawing,
  place: LinkPlace,
  isMeant: (link: FileLink) => boolean = () => true,
): Edit[] {
  const { own, folder } = place;
  if (own === folder) return [];
  const way = toHref(folder, own);
  return listLinks(drawing)
    .filter(isMeant)
    .map(({ attribute: { value, valueStart, valueEnd } }) => {
      const [, path = '', rest = ''] = /^([^?#]*)(.*)$/s.exec(value.trim()) ?? [];
      const moved = /^[a-z]+:/i.test(way) ? `${way}/${path}` : posix.normalize(`${way}/${path}`);
      return { start: valueStart, end: valueEnd, text: escapeText(moved + rest) };
    });
}

/** Where pictures are looked for. */
export interface SearchedFolders {
  /** In this folder, beside the drawing's own. */
  readonly find?: string;
}

/**
 * Find the files that a drawing's links name, of those that may be read.
 *
 * @param path - Where the drawing lies.
 * @param drawing - Read.
 * @param search - Where those are looked for that are not where links say, if anywhere.
 * @returns Their paths, beside the drawing's own, each once.
 */
export async function linkedFiles(
  path: string,
  drawing: Drawing,
  search?: SearchedFolders,
): Promise<string[]> {
  const links = listLinks(drawing);
  if (links.length === 0) return [];
  const folder = dirname(path);
  const [own, finder] = [await realFolder(folder), await findLinked(folder, search?.find)];
  const files = new Set<string>();
  for (const { attribute } of links) {
    const found = await finder.follow(attribute.value);
    if (found.kind === 'found' && (found.asLinked || search !== undefined))
      files.add(join(folder, relative(own, found.path)));
  }
  return [...files];
}
