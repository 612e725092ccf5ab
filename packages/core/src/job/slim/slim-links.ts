import { basename, extname, isAbsolute, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isRelative } from '../../drawing/list-links.js';
import { resolveLink } from '../../drawing/xml-base.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { PictureFormat } from '../../read/identify-format.js';
import type { PictureFolder } from '../../write/picture-folder.js';
import type { SlimmedPicture, SourcedPicture } from './slim-pictures.js';

const extensions: Readonly<Record<PictureFormat, string>> = {
  jpeg: '.jpg',
  png: '.png',
  webp: '.webp',
  tiff: '.tif',
  avif: '.avif',
  gif: '.gif',
};

/** From where to where links lead. */
export interface LinkPlace {
  /** Real path of the folder that the old drawing lies in. */
  readonly own: string;
  /** Of the one that the new drawing is to lie in. */
  readonly folder: string;
}

/**
 * Word a link from a drawing to a file.
 *
 * @param folder - Real path of the drawing's.
 * @param path - Real path of the file.
 * @returns From the one to the other; an address of this machine where there is no way.
 */
export function toHref(folder: string, path: string): string {
  const way = relative(folder, path);
  if (isAbsolute(way)) return pathToFileURL(path).href;
  return way.split(sep).map(encodeURIComponent).join('/');
}

/**
 * New links for pictures that stay where they are: where the old one does not lead there from the new
 * drawing, or from nowhere but this machine.
 *
 * @param sourced - Every picture.
 * @param place - Of the new drawing.
 * @returns Links by the element's number; none for those that hold.
 */
export function mendLinks(
  sourced: readonly SourcedPicture[],
  place: LinkPlace,
): Map<number, string> {
  const { own, folder } = place;
  const links = new Map<number, string>();
  for (const { number, picture, source } of sourced) {
    if (source.kind !== 'linked') continue;
    const link = resolveLink(picture.href.value, picture.base);
    const isPlain = isRelative({ value: link }) && link === picture.href.value;
    if (source.asLinked && folder === own && isPlain) continue;
    links.set(number, toHref(folder, source.path));
  }
  return links;
}

/** Where pictures are written. */
export interface WriteBeside {
  /** Into which folder. */
  readonly pictures: PictureFolder;
  /** What their names begin with. */
  readonly stem: string;
  /** Of the new drawing. */
  readonly place: LinkPlace;
}

/**
 * Write pictures beside the drawing. What was linked already and stays as it was is not written again.
 *
 * @param slimmed - The pictures.
 * @param beside - Where.
 * @param links - By the element's number; added to.
 * @returns The names of those that were written, each once.
 */
export async function writeBeside(
  slimmed: readonly SlimmedPicture[],
  beside: WriteBeside,
  links: Map<number, string>,
): Promise<string[]> {
  const { pictures, stem, place } = beside;
  const names = new Set<string>();
  for (const one of slimmed) {
    const { file, members, smaller } = one;
    const linked = members.find(({ source }) => source.kind === 'linked');
    const stays = smaller === null && linked?.source.kind === 'linked' ? linked.source.path : null;
    const add = async (): Promise<string> => {
      const bytes = smaller?.bytes ?? (await file.load());
      const path = await pictures.add(stem, extensionOf(one), bytes);
      names.add(basename(path));
      return path;
    };
    const path = stays ?? (await add());
    for (const { number, picture, source } of members) {
      const keeps = stays !== null && source.kind === 'linked' && !links.has(number);
      links.set(number, keeps ? picture.href.value : toHref(place.folder, path));
    }
  }
  return [...names];
}

function extensionOf({ file, smaller }: SlimmedPicture): string {
  return extensions[smaller?.format ?? file.look.format];
}

/**
 * What pictures beside a drawing are named by.
 *
 * @param path - Of the drawing.
 * @returns Its own name without the extension.
 */
export function stemOf(path: string): string {
  return basename(path, extname(path));
}

/**
 * Refuse one name for the drawing and for the folder of its pictures.
 *
 * @param link - The folder, or undefined.
 * @param output - The drawing, or undefined.
 * @throws RangeError where they are one.
 */
export function refuseSame(link: string | undefined, output: string | undefined): void {
  if (link === undefined || output === undefined || resolve(link) !== resolve(output)) return;
  throw outOfRange('a folder beside the drawing, not the drawing itself,', 'link', link);
}
