import { withLimits } from '../../read/held-limits.js';
import { join } from 'node:path';
import { type Edit, editText } from '../../drawing/edit-text.js';
import { encodeDrawing } from '../../drawing/encode-drawing.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { readStored } from '../../read/read-drawing-bytes.js';
import type { Dpi } from '../../units/units.js';
import {
  checkPictureFolder,
  type PictureFolder,
  withPictureFolder,
} from '../../write/picture-folder.js';
import { isPacked, packDrawing } from '../../write/pack-drawing.js';
import { checkPackableOutput, writeDrawing } from '../../write/write-drawing.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { openDrawing, type OpenedDrawing } from '../open/open-drawing.js';
import { type MissingPicture, reportSlim, type SlimmedImage } from './report-slim.js';
import { refuseSame, stemOf } from './slim-links.js';
import { slimOpened } from './slim-opened.js';
import type { SlimWish } from './slim-pictures.js';
import { warnOfPacked, warnOfUnpacked } from './warn-of-unpacked.js';

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
  /** Pictures written beside it: none without `link`, or where only a report was asked. */
  readonly pictures: readonly string[];
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
  return withLimits(options, () => slimWithin(path, options));
}

async function slimWithin(
  path: string,
  options: SlimDrawingOptions,
): Promise<Outcome<SlimmedDrawing, never>> {
  const { link, report = false } = options;
  const wish = slimWish(options);
  await checkPlaces(path, options);
  beginStep('reading', options);
  const opened = await openDrawing(path);
  const write = (folder: PictureFolder | null): Promise<Outcome<SlimmedDrawing, never>> =>
    slimInto(folder, opened, { path, wish, ...options });
  return link === undefined ? write(null) : withPictureFolder(link, { dry: report }, write);
}

interface SlimInto extends SlimDrawingOptions {
  readonly path: string;
  readonly wish: SlimWish;
}

async function slimInto(
  folder: PictureFolder | null,
  opened: OpenedDrawing,
  options: SlimInto,
): Promise<Outcome<SlimmedDrawing, never>> {
  const { path, output, report = false } = options;
  const { bytes, stored } = opened;
  const to = output === undefined || report ? path : output;
  const slim = await slimOpened(opened, {
    ...options,
    ...{ to, stem: stemOf(output ?? path), folder },
  });
  const made = await makeFile(opened, slim.edits, { path, output, mayGrow: slim.mayGrow });
  const written = report ? null : (output ?? null);
  if (written !== null) await writeDrawing(written, made.pieces, [path, ...slim.inputs]);
  const { warnings, ...told } = reportSlim({
    ...slim.facts,
    bytes,
    stored,
    isKept: made.isKept,
  });
  const pictures = report ? [] : slim.pictures.map((name) => join(options.link ?? '', name));
  const size = { bytesBefore: stored, bytesAfter: made.bytes };
  const value = { output: written, ...size, ...told, pictures };
  const file = { output, size: made.bytes };
  const packing = made.isKept
    ? [...warnOfUnpacked(path, opened, file), ...warnOfPacked(path, opened, file)]
    : warnOfUnpacked(path, opened, file);
  return { ok: true, value, warnings: [...packing, ...warnings] };
}

async function checkPlaces(path: string, options: SlimDrawingOptions): Promise<void> {
  const { output, link, report = false } = options;
  if (output !== undefined) await checkPackableOutput(output, [path]);
  if (link !== undefined && !report) await checkPictureFolder(link);
}

/**
 * Settle what a drawing is made smaller for.
 *
 * @param options - As the caller gave them.
 * @returns What for.
 * @throws RangeError when they make no sense together.
 */
export function slimWish(options: SlimDrawingOptions): SlimWish {
  const { output, report = false, dpi = 600, link, embed = false, keepClipped = false } = options;
  if (output === undefined && !report) throw outOfRange('a file to write', 'output', output);
  if (link !== undefined && embed) throw outOfRange('either link or embed', 'link', link);
  refuseSame(link, output);
  const mode = link === undefined ? (embed ? 'embed' : 'keep') : 'link';
  return { dpi, keepClipped, mode };
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
