import { dirname, join, posix, relative } from 'node:path';
import type { Drawing } from '../../drawing/drawing.js';
import type { Edit } from '../../drawing/edit-text.js';
import { type FileLink, isRelative, listLinks } from '../../drawing/list-links.js';
import { escapeText, removal } from '../../drawing/markup.js';
import { escapeCssLink } from '../../drawing/style/css-links.js';
import { findLinked, realFolder } from '../../read/find-linked.js';

import { type LinkPlace, toHref } from './slim-links.js';

/**
 * Let a drawing's links lead to where they led, from another folder. What they name need not be there. Those
 * that count from an `xml:base` are made to count from the drawing, since few programs heed it.
 *
 * @param drawing - As it lies in the old one.
 * @param place - Both folders.
 * @param links - All of its.
 * @param mended - Which of them are changed otherwise: none unless told.
 * @returns The edits: none where the folder is the same.
 */
export function moveLinks(
  drawing: Drawing,
  place: LinkPlace,
  links: readonly FileLink[] = listLinks(drawing),
  mended: (link: FileLink) => boolean = () => false,
): Edit[] {
  const { own, folder } = place;
  const bases = new Set(links.flatMap(({ base }) => base?.attributes ?? []));
  const moved = links
    .filter((link) => !mended(link) && (link.base !== null || own !== folder))
    .flatMap((link) => {
      const text = movedFrom(link, place);
      return text === link.value && link.base === null ? [] : [relink(link, text)];
    });
  return [...moved, ...[...bases].map((base) => removal(drawing, base))];
}

function movedFrom(link: FileLink, { own, folder }: LinkPlace): string {
  if (own === folder || !isRelative(link)) return link.value;
  const way = toHref(folder, own);
  const { path, rest } = partsOf(link);
  return (/^[a-z]+:/i.test(way) ? `${way}/${path}` : posix.normalize(`${way}/${path}`)) + rest;
}

/**
 * What a link says of a file, and of a place in it.
 *
 * @param link - Of a drawing.
 * @returns Its path, and what follows that.
 * @see RFC 3986, 3
 */
export function partsOf(link: FileLink): { readonly path: string; readonly rest: string } {
  const value = link.value.trim();
  const [path = ''] = value.split(/[?#]/, 1);
  return { path, rest: value.slice(path.length) };
}

/**
 * Let a link lead elsewhere.
 *
 * @param link - As it stands.
 * @param value - Where to, from the drawing.
 * @returns The edit.
 */
export function relink(link: FileLink, value: string): Edit {
  const { isCss, start, end } = link;
  return { start, end, text: isCss ? escapeCssLink(value) : escapeText(value) };
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
  const links = listLinks(drawing).filter(isRelative);
  if (links.length === 0) return [];
  const folder = dirname(path);
  const [own, finder] = [await realFolder(folder), await findLinked(folder, search?.find)];
  const files = new Set<string>();
  for (const { value } of links) {
    const found = await finder.follow(value);
    if (found.kind === 'found' && (found.asLinked || search !== undefined))
      files.add(join(folder, relative(own, found.path)));
  }
  return [...files];
}
