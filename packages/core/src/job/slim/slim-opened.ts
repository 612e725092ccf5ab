import { dirname } from 'node:path';
import type { Edit } from '../../drawing/edit-text.js';
import { type FileLink, listLinks } from '../../drawing/list-links.js';
import { findPlaces } from '../../drawing/places/find-places.js';
import { findLinked, type LinkFinder, realFolder } from '../../read/find-linked.js';
import type { PictureFolder } from '../../write/picture-folder.js';
import { beginStep, type JobOptions } from '../job-options.js';
import type { OpenedDrawing } from '../open/open-drawing.js';
import { type MendedCssLinks, mendCssLinks } from './mend-css-links.js';
import { moveLinks } from './move-links.js';
import type { SlimFacts } from './report-slim.js';
import { editPictures } from './slim-edits.js';
import { mendLinks, writeBeside } from './slim-links.js';
import {
  type SlimmedPicture,
  slimPictures,
  type SlimWish,
  type SourcedPicture,
} from './slim-pictures.js';
import { openPicture, type PictureFile } from './slim-source.js';

/** How an open drawing is made smaller. */
export interface SlimOpenedOptions extends JobOptions {
  /** Where it lies. */
  readonly path: string;
  /** A file in the folder that the new one is to lie in. */
  readonly to: string;
  /** What names of new pictures begin with. */
  readonly stem: string;
  /** What it is for. */
  readonly wish: SlimWish;
  /** The folder that all pictures are written into, or null. */
  readonly folder: PictureFolder | null;
  /** A folder in which missing pictures are looked for. */
  readonly find?: string;
}

/** What makes a drawing smaller. */
export interface SlimmedOpened {
  /** What is changed in its text. */
  readonly edits: readonly Edit[];
  /** Whether something had to change, were the drawing larger for it. */
  readonly mayGrow: boolean;
  /** Names of pictures that were written into the folder. */
  readonly pictures: readonly string[];
  /** Pictures that were read. */
  readonly inputs: readonly string[];
  /** What there is to tell. */
  readonly facts: Omit<SlimFacts, 'bytes' | 'stored' | 'isKept'>;
}

/**
 * Make the pictures of an open drawing smaller.
 *
 * @param opened - The drawing.
 * @param options - Where it is to lie, and what it is for.
 * @returns What is to be changed in it.
 * @throws TextureError when a file does not allow it.
 */
export async function slimOpened(
  opened: OpenedDrawing,
  options: SlimOpenedOptions,
): Promise<SlimmedOpened> {
  const { path, to, stem, wish, folder } = options;
  const placement = findPlaces(opened.drawing);
  const finder = await findLinked(dirname(path), options.find);
  const sourced = await openPictures(placement, finder);
  beginStep('slimming', options);
  const slimmed = await slimPictures(placement, sourced, wish);
  const place = { own: await realFolder(dirname(path)), folder: await realFolder(dirname(to)) };
  beginStep('writing', options);
  const links = mendLinks(sourced, place);
  const all = listLinks(opened.drawing);
  const css = await mendCssLinks(opened.drawing, all, finder, place);
  const pictures =
    folder === null ? [] : await writeBeside(slimmed, { pictures: folder, stem, place }, links);
  const edited = await editPictures(opened.drawing, { sourced, slimmed, links });
  const isMended = mendedOf(sourced, css);
  const moved = [...css.edits, ...moveLinks(opened.drawing, place, all, isMended)];
  return {
    edits: [...edited.edits, ...moved],
    mayGrow: links.size > 0 || moved.length > 0 || isEmbedding(slimmed, wish),
    pictures,
    inputs: [
      ...sourced.flatMap(({ source }) => (source.kind === 'linked' ? [source.path] : [])),
      ...css.files,
    ],
    facts: { path, placement, sourced, slimmed, links, css, edited, wish },
  };
}

async function openPictures(
  { pictures }: SlimFacts['placement'],
  finder: LinkFinder,
): Promise<SourcedPicture[]> {
  const known = new Map<string, PictureFile>();
  const sourced: SourcedPicture[] = [];
  for (const [i, picture] of pictures.entries()) {
    sourced.push({ number: i + 1, picture, source: await openPicture(picture, finder, known) });
  }
  return sourced;
}

function isEmbedding(slimmed: readonly SlimmedPicture[], { mode }: SlimWish): boolean {
  if (mode !== 'embed') return false;
  return slimmed.some(({ members }) => members.some(({ source }) => source.kind === 'linked'));
}

// The others are links of what is no picture, or to what is not there, or an `image`'s second that differs.
function mendedOf(
  sourced: readonly SourcedPicture[],
  css: MendedCssLinks,
): (link: FileLink) => boolean {
  const known = new Set(
    sourced.flatMap(({ picture: { href, again }, source }) =>
      source.kind === 'missing' ? [] : [href.valueStart, again?.valueStart],
    ),
  );
  return ({ isCss, start }) => (isCss ? css.mended : known).has(start);
}
