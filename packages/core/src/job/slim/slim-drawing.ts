import { dirname } from 'node:path';
import { type Edit, editText } from '../../drawing/edit-text.js';
import { encodeDrawing } from '../../drawing/encode-drawing.js';
import { findPlaces } from '../../drawing/places/find-places.js';
import type { Placement } from '../../drawing/places/placed-picture.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { readStored } from '../../read/read-drawing-bytes.js';
import { findLinked, realFolder } from '../../read/find-linked.js';
import type { Dpi } from '../../units/units.js';
import {
  checkPictureFolder,
  openPictureFolder,
  type PictureFolder,
} from '../../write/picture-folder.js';
import { isPacked, packDrawing } from '../../write/pack-drawing.js';
import { checkPackableOutput, writeDrawing } from '../../write/write-drawing.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { editPictures } from './slim-edits.js';
import { moveLinks } from './move-links.js';
import { type LinkPlace, mendLinks, refuseSame, stemOf, writeBeside } from './slim-links.js';
import {
  type SlimmedPicture,
  slimPictures,
  type SlimWish,
  type SourcedPicture,
} from './slim-pictures.js';
import { warnOfUnpacked } from './warn-of-unpacked.js';
import { type MissingPicture, reportSlim, type SlimmedImage } from './report-slim.js';
import { openDrawing, type OpenedDrawing } from '../open/open-drawing.js';
import { openPicture, type PictureFile } from './slim-source.js';

/** What {@link slimDrawing} needs to know. */
export interface SlimDrawingOptions extends JobOptions {
  /** The drawing to write, `.svg`, or `.svgz` compressed; may be left out with `report`. */
  readonly output?: string;
  /** Whether it is only to be said what would be done; false unless told. */
  readonly report?: boolean;
  /** Dots per inch that the print holds; 600 unless told. */
  readonly dpi?: Dpi;
  /** A folder to write all pictures into, beside the drawing. */
  readonly link?: string;
  /** Whether linked pictures go into the drawing as well; false unless told. */
  readonly embed?: boolean;
  /** A folder in which missing pictures are looked for, and those inside it. */
  readonly find?: string;
  /** Whether what never shows of a picture is kept; false unless told. */
  readonly keepClipped?: boolean;
}

/** A drawing made smaller, and how. */
export interface SlimmedDrawing {
  /** The file written, or null where only a report was asked. */
  readonly output: string | null;
  /** Of the file of the drawing as it was. */
  readonly bytesBefore: number;
  /** Of the new one. */
  readonly bytesAfter: number;
  /** Why it is as large as it is, in words. */
  readonly verdict: string;
  /** Every `image` in it, in the order in which they stand. */
  readonly images: readonly SlimmedImage[];
  /** Links that lead to nothing that may be read. */
  readonly missing: readonly MissingPicture[];
}

/**
 * Make a drawing's file smaller that prints the same: each picture stored once, cut to what shows of
 * it, and no finer than a print.
 *
 * @param path - Where the drawing lies. It is never changed.
 * @param options - Where to write the new one, and what it is for.
 * @returns What was written and why.
 * @throws RangeError when options make no sense together.
 * @throws TextureError when a file does not allow it.
 */
export async function slimDrawing(
  path: string,
  options: SlimDrawingOptions,
): Promise<Outcome<SlimmedDrawing, never>> {
  const { output, report = false } = options;
  const wish = wishOf(options);
  await checkPlaces(path, options);
  beginStep('reading', options);
  const opened = await openDrawing(path);
  const { bytes, stored } = opened;
  const placement = findPlaces(opened.drawing);
  const sourced = await openPictures(path, placement, options);
  beginStep('slimming', options);
  const slimmed = await slimPictures(placement, sourced, wish);
  const place = await placeOf(path, options);
  beginStep('writing', options);
  const folder = await openBeside(options);
  try {
    const links = mendLinks(sourced, place);
    const mayGrow = links.size > 0 || isEmbedding(slimmed, wish);
    const stem = stemOf(output ?? path);
    if (folder !== null) await writeBeside(slimmed, { pictures: folder, stem, place }, links);
    const edited = await editPictures(opened.drawing, { sourced, slimmed, links });
    const moved = moveOthers(opened, sourced, place);
    const edits = [...edited.edits, ...moved];
    const made = await makeFile(opened, edits, {
      path,
      output,
      mayGrow: mayGrow || moved.length > 0,
    });
    const written = report ? null : (output ?? null);
    if (written !== null) {
      await writeDrawing(written, made.pieces, inputsOf(path, sourced));
    }
    const facts = { path, placement, sourced, slimmed, links, edited, wish };
    const { warnings, ...told } = reportSlim({ ...facts, bytes, stored, isKept: made.isKept });
    const value = { output: written, bytesBefore: stored, bytesAfter: made.bytes, ...told };
    const unpacked = warnOfUnpacked(path, opened, { output, size: made.bytes });
    return { ok: true, value, warnings: [...unpacked, ...warnings] };
  } catch (cause) {
    await folder?.undo();
    throw cause;
  }
}

async function checkPlaces(path: string, options: SlimDrawingOptions): Promise<void> {
  const { output, link, report = false } = options;
  if (output !== undefined) await checkPackableOutput(output, [path]);
  if (link !== undefined && !report) await checkPictureFolder(link);
}

async function openPictures(
  path: string,
  { pictures }: Placement,
  { find }: SlimDrawingOptions,
): Promise<SourcedPicture[]> {
  const finder = await findLinked(dirname(path), find);
  const known = new Map<string, PictureFile>();
  const sourced: SourcedPicture[] = [];
  for (const [i, picture] of pictures.entries()) {
    sourced.push({ number: i + 1, picture, source: await openPicture(picture, finder, known) });
  }
  return sourced;
}

function wishOf(options: SlimDrawingOptions): SlimWish {
  const { output, report = false, dpi = 600, link, embed = false, keepClipped = false } = options;
  if (output === undefined && !report) throw outOfRange('a file to write', 'output', output);
  if (link !== undefined && embed) throw outOfRange('either link or embed', 'link', link);
  refuseSame(link, output);
  const mode = link === undefined ? (embed ? 'embed' : 'keep') : 'link';
  return { dpi, keepClipped, mode };
}

async function placeOf(path: string, { output, report }: SlimDrawingOptions): Promise<LinkPlace> {
  const own = await realFolder(dirname(path));
  const folder = output === undefined || report === true ? own : await realFolder(dirname(output));
  return { own, folder };
}

async function openBeside({ link, report }: SlimDrawingOptions): Promise<PictureFolder | null> {
  if (link === undefined) return null;
  return openPictureFolder(link, { dry: report === true });
}

function isEmbedding(slimmed: readonly SlimmedPicture[], { mode }: SlimWish): boolean {
  if (mode !== 'embed') return false;
  return slimmed.some(({ members }) => members.some(({ source }) => source.kind === 'linked'));
}

function inputsOf(path: string, sourced: readonly SourcedPicture[]): string[] {
  return [
    path,
    ...sourced.flatMap(({ source }) => (source.kind === 'linked' ? [source.path] : [])),
  ];
}

// Links of what is no picture, and of pictures that are not there: the others were mended.
function moveOthers(
  { drawing }: OpenedDrawing,
  sourced: readonly SourcedPicture[],
  place: LinkPlace,
): Edit[] {
  const known = new Set(
    sourced.flatMap(({ picture, source }) =>
      source.kind === 'missing' ? [] : [picture.element.index],
    ),
  );
  return moveLinks(drawing, place, ({ element }) => !known.has(element));
}

interface MadeFile {
  readonly pieces: Iterable<Uint8Array>;
  readonly bytes: number;
  readonly isKept: boolean;
}

interface MakeFile {
  readonly path: string;
  readonly output: string | undefined;
  // Whether something had to change.
  readonly mayGrow: boolean;
}

// As it was where that is no larger, as what is written goes.
async function makeFile(
  opened: OpenedDrawing,
  edits: readonly Edit[],
  { path, output, mayGrow }: MakeFile,
): Promise<MadeFile> {
  const { text, encoding, bytes, stored } = opened;
  // What is only reported is to stay what it is.
  const isPackedNow = isPacked(output ?? path);
  if (edits.length > 0) {
    const made = await fileOf(editText(text, edits), encoding, isPackedNow);
    if (mayGrow || made.bytes < (isPackedNow ? stored : bytes)) return { ...made, isKept: false };
  }
  // One that was compressed as well as can be stays as it was, to the byte.
  const isSame = isPackedNow && stored !== bytes;
  if (isSame) return { pieces: [await readStored(path)], bytes: stored, isKept: true };
  return { ...(await fileOf([text], encoding, isPackedNow)), isKept: true };
}

async function fileOf(
  pieces: readonly string[],
  encoding: OpenedDrawing['encoding'],
  isPackedNow: boolean,
): Promise<Pick<MadeFile, 'pieces' | 'bytes'>> {
  if (isPackedNow) {
    const packed = await packDrawing(encodeDrawing(pieces, encoding));
    return { pieces: [packed], bytes: packed.length };
  }
  let size = 0;
  for (const piece of encodeDrawing(pieces, encoding)) size += piece.length;
  return { pieces: encodeDrawing(pieces, encoding), bytes: size };
}
