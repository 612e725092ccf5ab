import { limitsOf, withLimits } from '../../read/held-limits.js';
import { basename, dirname, join } from 'node:path';
import type { CourseReference } from '../../catalogue/course-reference.js';
import type { NamedScale } from '../../catalogue/find-scale.js';
import { type FoundOutlines, findOutlines } from '../../drawing/dress/find-outlines.js';
import { matchKeys } from '../../drawing/dress/match-keys.js';
import type { PaintKey } from '../../drawing/dress/paint-key.js';
import { undress } from '../../drawing/dress/undress.js';
import { type Edit, editText } from '../../drawing/edit-text.js';
import { encodeDrawing } from '../../drawing/encode-drawing.js';
import { readDrawing } from '../../drawing/read-drawing.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { Warning } from '../../errors/warning.js';
import { settleStrengths } from '../../finish/weather/strengths.js';
import { realFolder } from '../../read/find-linked.js';
import type { PerAxis } from '../../surface/measurement.js';
import { type Dpi, dpi as toDpi } from '../../units/units.js';
import {
  checkPictureFolder,
  type PictureFolder,
  withPictureFolder,
} from '../../write/picture-folder.js';
import { isPacked, packDrawing } from '../../write/pack-drawing.js';
import { checkPackableOutput, writeDrawing } from '../../write/write-drawing.js';
import type { DressedPicture } from './dress-picture.js';
import { dressEdits } from './dress-edits.js';
import { checkDressRelief, placeDressRelief } from './dress-relief.js';
import type { DressReliefWish } from './dress-relief-options.js';
import { checkDressWeather, type DressWeather, placeDressWeather } from './dress-weather.js';
import { layOutlines } from './dress-plan.js';
import { type DressedWith, dressSurfaces } from './dress-surfaces.js';
import { warnOfUnpacked } from '../slim/warn-of-unpacked.js';
import { given } from '../given.js';
import { beginStep, type JobOptions } from '../job-options.js';
import type { SurfaceRefusal, TakeSurface } from '../surface/made-surface.js';
import { checkDatum } from '../fill/next-wall.js';
import { openPrinting, type PrintingReport, reportPrinting } from '../print/open-printing.js';
import { checkPrinting, printingFiles, type PrintingOptions } from '../print/printing-options.js';
import { openDrawing, type OpenedDrawing } from '../open/open-drawing.js';
import { type KeyRefusal, refuseKeys, refuseLeft, refuseTwice } from './refuse-keys.js';
import {
  type DressedOutline,
  type DressedSurface,
  reportOutlines,
  reportSurfaces,
  warnOfLeft,
} from './report-dress.js';
import { reportWeather, type WeatherReport } from '../weather/report-weather.js';
import { reportScale, type ScaleReport } from '../measure/report-scale.js';
import { linkedFiles, moveLinks } from '../slim/move-links.js';
import type { SlimDrawingOptions } from '../slim/slim-drawing.js';
import { refuseSame, stemOf, toHref } from '../slim/slim-links.js';
import type { ReferenceOptions } from '../measure/reference-options.js';

/** Which outlines are to be covered with what. */
export interface Paint {
  /** Which outlines. */
  readonly key: PaintKey;
  /** A photo, as `fillPhoto` takes it. */
  readonly surface: string;
}

/** What {@link dressDrawing} needs to know. */
export interface DressDrawingOptions extends Pick<ReferenceOptions, 'references'>, JobOptions {
  /** The drawing to write, `.svg`, or `.svgz` compressed. */
  readonly output: string;
  /** What is to be covered with what: one or more. */
  readonly paint: readonly Paint[];
  /** Of the model. */
  readonly scale: NamedScale;
  /** Of the printer, 10 to 4800; 600 unless told. */
  readonly dpi?: Dpi;
  /** Millimetres of the drawing, from its top left corner, at which a course begins; 0,0 unless told. */
  readonly datum?: PerAxis<number>;
  /** What the courses are of photos with nothing kept beside them. */
  readonly course?: CourseReference;
  /** Whether slow changes of light and colour are taken out; true unless told. */
  readonly even?: boolean;
  /** What weather does to the walls, each placed by its outlines; none unless told. */
  readonly weather?: DressWeather;
  /** Which of them are in relief, each as long and as deep as it is drawn; none unless told. */
  readonly relief?: readonly DressReliefWish[];
  /** What is done to colours so that they print as on the screen; nothing unless told. */
  readonly printing?: PrintingOptions;
  /** A folder to write pictures into, beside the drawing. */
  readonly link?: string;
  /** Whether pictures go into the drawing, which they do unless `link` is given. */
  readonly embed?: boolean;
  /** How pictures that the drawing holds already are made smaller first, as `slimDrawing` does; left unless told. */
  readonly slim?: SlimFirst;
}

/** How a drawing's own pictures are made smaller before it is dressed: for the same dots. */
export type SlimFirst = Pick<SlimDrawingOptions, 'find' | 'keepClipped'>;

/** A drawing whose outlines are covered. */
export interface DressedDrawing {
  /** The file written. */
  readonly output: string;
  /** Of the file of the drawing as it was. */
  readonly bytesBefore: number;
  /** Of the new one. */
  readonly bytesAfter: number;
  /** Of the printer. */
  readonly dpi: number;
  /** Of the model. */
  readonly scale: ScaleReport;
  /** What weather was laid on them, or null where none was asked for. */
  readonly weather: WeatherReport | null;
  /** What was done to colours so that they print as on the screen, or null where nothing was asked for. */
  readonly printing: PrintingReport | null;
  /** What outlines were covered with. */
  readonly surfaces: readonly DressedSurface[];
  /** Every outline that was covered. */
  readonly outlines: readonly DressedOutline[];
}

/** Why a drawing could not be dressed. */
export type DressRefusal = KeyRefusal | SurfaceRefusal;

/**
 * Cover a drawing's outlines with surfaces, all at one scale, their courses running on from one to the
 * next. An earlier dressing is taken out first; all else stays as it is, byte for byte.
 *
 * @param path - Where the drawing lies. It is never changed.
 * @param options - What is to be covered with what, and where to write.
 * @returns What was covered, or why the drawing or a photo does not allow it.
 * @throws RangeError when options make no sense, alone or together.
 * @throws TextureError when a file does not allow it.
 */
export async function dressDrawing(
  path: string,
  options: DressDrawingOptions,
): Promise<Outcome<DressedDrawing, DressRefusal>> {
  return withLimits(options, () => dressFrom(undefined, path, options));
}

/** Surfaces that were made before. */
export interface KeptSurfaces {
  /** Brings each, by what `paint` calls it. */
  readonly take: TakeSurface;
  /** The photos that they were made of. */
  readonly photos: readonly string[];
}

/**
 * The same with surfaces from elsewhere.
 *
 * @param kept - Where they come from; from the photos that `paint` names where undefined.
 * @param path - Where the drawing lies.
 * @param options - As for {@link dressDrawing}.
 * @returns Likewise.
 * @throws RangeError when options make no sense, alone or together.
 * @throws TextureError when a file does not allow it.
 */
export async function dressFrom(
  kept: KeptSurfaces | undefined,
  path: string,
  options: DressDrawingOptions,
): Promise<Outcome<DressedDrawing, DressRefusal>> {
  const { output, paint, scale, even = true, course, references, link } = options;
  const { onProgress, signal } = options;
  const wish = checkOptions(options);
  const inputs = [path, ...paint.map(({ surface }) => surface), ...printingFiles(options.printing)];
  await checkPackableOutput(output, inputs);
  if (link !== undefined) await checkPictureFolder(link);
  beginStep('reading', options);
  const printing = await openPrinting(options.printing, photosOf(paint, kept));
  const { opened, linked, warnings } = await openToDress(path, options);
  inputs.push(...linked);
  const { drawing } = opened;
  const found = findOutlines(drawing);
  refuseDrawing(path, found);
  const keys = paint.map(({ key }) => key);
  const meant = matchKeys(drawing, found.outlines, keys);
  const refusal = refuseKeys(path, found, { drawing, keys, meant });
  if (refusal) return refusal;
  const { wanted, left, laid } = layOutlines(meant.matched, { drawing, paint, ...wish });
  const none = refuseLeft(path, keys, { left, laid });
  if (none) return none;
  const all = [...wanted.values()].flat();
  const walls = { path, drawing, found, laid: all, ...wish };
  const relief = placeDressRelief(options.relief, { ...walls, scale });
  if (!relief.ok) return relief;
  const placed = placeDressWeather(options.weather, { ...walls, reliefs: relief.value.by });
  if (!placed.ok) return placed;
  const made = await dressSurfaces(wanted, {
    scale,
    even,
    printing,
    ...wish,
    placed: placed.value,
    reliefs: relief.value.by,
    ...(kept && { take: kept.take }),
    ...given({ course, references, onProgress, signal }),
  });
  if (!made.ok) return made;
  beginStep('dressing', options);
  const written = await write({ opened, path, inputs }, made.value, options);
  const facts = { dressed: made.value, keys, reliefs: relief.value.by, ...written };
  return {
    ok: true,
    value: {
      output,
      bytesBefore: opened.stored,
      bytesAfter: written.bytes,
      dpi: wish.dpi,
      scale: reportScale(scale),
      weather: reportOf(options),
      printing: reportPrinting(printing),
      surfaces: reportSurfaces(facts),
      outlines: reportOutlines(facts),
    },
    warnings: [
      ...warnOfUnpacked(path, opened, { output, size: written.bytes }),
      ...warnings,
      ...warnOfDoubt(found),
      ...warnOfLeft(left, drawing),
      ...relief.value.warnings,
      ...made.warnings,
    ],
  };
}

function reportOf({ weather }: DressDrawingOptions): WeatherReport | null {
  return weather === undefined ? null : reportWeather(settleStrengths(weather), weather.seed);
}

interface Wish {
  readonly dpi: Dpi;
  readonly datum: PerAxis<number>;
  readonly mode: 'link' | 'embed';
}

function checkOptions(options: DressDrawingOptions): Wish {
  const { output, paint, dpi = toDpi(600), datum = { x: 0, y: 0 }, link, embed = false } = options;
  if (paint.length === 0) throw outOfRange('what is to be covered with what', 'paint', undefined);
  if (!(dpi >= 10 && dpi <= 4800)) throw outOfRange('10 to 4800', 'dpi', dpi);
  checkDatum(datum);
  if (options.weather !== undefined) checkDressWeather(options.weather);
  checkDressRelief(options.relief ?? [], options.scale);
  if (link !== undefined && embed) throw outOfRange('either link or embed', 'link', link);
  refuseSame(link, output);
  checkPrinting(options.printing);
  refuseTwice(paint.map(({ key }) => key));
  return { dpi, datum, mode: link === undefined ? 'embed' : 'link' };
}

// Elsewhere surfaces go by other names.
function photosOf(paint: readonly Paint[], kept: KeptSurfaces | undefined): readonly string[] {
  return kept === undefined ? paint.map(({ surface }) => surface) : kept.photos;
}

function edited(opened: OpenedDrawing, edits: readonly Edit[]): OpenedDrawing {
  if (edits.length === 0) return opened;
  const text = editText(opened.text, edits).join('');
  return { ...opened, text, drawing: readDrawing(text, limitsOf('drawing')) };
}

interface ToDress {
  readonly opened: OpenedDrawing;
  readonly linked: readonly string[];
  readonly warnings: readonly Warning[];
}

// As it was before it was dressed, smaller where that was asked, its links as they are to be where the new
// one lies.
async function openToDress(path: string, options: DressDrawingOptions): Promise<ToDress> {
  const { output, dpi, embed, slim, onProgress, signal } = options;
  const read = await openDrawing(path);
  const linked = await linkedFiles(path, read.drawing, slim);
  const place = { own: await realFolder(dirname(path)), folder: await realFolder(dirname(output)) };
  const bare = undressed(read, path);
  if (slim === undefined) {
    return { opened: edited(bare, moveLinks(bare.drawing, place)), linked, warnings: [] };
  }
  const { slimWhole } = await import('../slim/slim-whole.js');
  const slimmed = await slimWhole(bare, path, {
    ...slim,
    output,
    ...(dpi && { dpi }),
    ...(embed !== undefined && { embed }),
    ...(onProgress && { onProgress }),
    ...(signal && { signal }),
  });
  return { ...slimmed, linked };
}

function undressed(opened: OpenedDrawing, path: string): OpenedDrawing {
  try {
    return edited(opened, undress(opened.drawing));
  } catch (cause) {
    const message = `${showPath(path)} was dressed before, and what was added cannot be told from the rest any more`;
    throw new TextureError('bad-drawing', message, { cause });
  }
}

function refuseDrawing(path: string, { fault }: FoundOutlines): void {
  if (fault === null) return;
  const isSize = fault.startsWith('states no size');
  const hint = isSize
    ? { hint: 'give its size on paper beside the viewBox: width="120mm" height="80mm"' }
    : {};
  throw new TextureError('bad-drawing', `${showPath(path)} ${showPath(fault)}`, hint);
}

interface Work {
  readonly opened: OpenedDrawing;
  readonly path: string;
  readonly inputs: readonly string[];
}

interface Written {
  readonly bytes: number;
  readonly ids: readonly string[];
  readonly files: readonly string[] | null;
}

async function write(
  work: Work,
  dressed: readonly DressedWith[],
  options: DressDrawingOptions,
): Promise<Written> {
  const { output, link } = options;
  if (link === undefined) {
    const links = dressed.flatMap(({ pictures }) => pictures.map(embed));
    return { ...(await writeDressed(work, dressed, { output, links })), files: null };
  }
  return withPictureFolder(link, { dry: false }, async (folder) => {
    const files = await writeBeside(dressed, folder, stemOf(output));
    const own = await realFolder(dirname(output));
    const links = files.map((file) => toHref(own, file));
    const written = await writeDressed(work, dressed, { output, links });
    return { ...written, files: files.map((file) => join(link, basename(file))) };
  });
}

async function writeDressed(
  { opened, path, inputs }: Work,
  dressed: readonly DressedWith[],
  { output, links }: { readonly output: string; readonly links: readonly string[] },
): Promise<Omit<Written, 'files'>> {
  const { drawing, encoding } = opened;
  const { edits, ids } = dressEdits(drawing, dressed, links);
  if (typeof edits === 'string') refuseUse(path, edits);
  const pieces = encodeDrawing(editText(drawing.text, edits), encoding);
  const file = isPacked(output) ? [await packDrawing(pieces)] : pieces;
  return { bytes: await writeDrawing(output, file, inputs), ids };
}

function refuseUse(path: string, fault: string): never {
  throw new TextureError('bad-drawing', `${showPath(path)} ${fault}`);
}

async function writeBeside(
  dressed: readonly DressedWith[],
  folder: PictureFolder,
  stem: string,
): Promise<string[]> {
  const files: string[] = [];
  for (const picture of dressed.flatMap(({ pictures }) => pictures)) {
    files.push(await folder.add(stem, picture.format === 'png' ? '.png' : '.jpg', picture.bytes));
  }
  return files;
}

function embed({ format, bytes }: DressedPicture): string {
  return `data:image/${format};base64,${bytes.toString('base64')}`;
}

function warnOfDoubt({ doubt }: FoundOutlines): Warning[] {
  if (doubt === null) return [];
  const message = `what some outlines are filled with, or where they lie, cannot be told because of ${doubt}`;
  return [{ code: 'colours-unsure', message }];
}
