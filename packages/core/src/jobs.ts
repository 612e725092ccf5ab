// What a command needs, and no more: a job is loaded when it is called, without the others. All of the
// library takes as long to load as a large photo to decode.
import type { LimitOptions } from './limits/limits.js';
import type { Outcome } from './errors/outcome.js';
import type {
  DressDrawingOptions,
  DressedDrawing,
  DressRefusal,
} from './job/dress/dress-drawing.js';
import type { ExtendedPhotos, ExtendPhotosOptions } from './job/extend/extend-photos.js';
import type { ExtendRefusal } from './job/extend/lay-extension.js';
import type { FilledPhoto } from './job/fill/fill-surface.js';
import type { FillPhotoOptions } from './job/fill/fill-options.js';
import type { SurfaceRefusal } from './job/surface/made-surface.js';
import type { MadeRelief } from './job/relief/report-relief.js';
import type { MakeReliefOptions } from './job/relief/relief-options.js';
import type { MadeTestStrip, MakeTestStripOptions } from './job/print/make-test-strip.js';
import type { LearntPrinter, ReadTestStripOptions } from './job/print/read-test-strip.js';
import type { StripRefusal } from './finish/print/strip-refusals.js';
import type { MeasureRefusal } from './job/measure/find-measurement.js';
import type { InspectedPhoto, InspectPhotoOptions } from './job/inspect/inspect-photo.js';
import type { TileRefusal } from './job/surface/make-tile.js';
import type { MeasuredPhoto, MeasurePhotoOptions } from './job/measure/measure-known.js';
import type { MendedPhoto, MendPhotoOptions } from './job/mend/mend-photo.js';
import type { MeasurePhotosOptions, PhotoAnswer } from './job/measure/measure-photos.js';
import type { OfferedFormats } from './job/measure/offer-formats.js';
import type { ScaledPhoto, ScalePhotoOptions } from './job/surface/scale-photo.js';
import type { SheetedParts, SheetPartsOptions, SheetRefusal } from './job/sheet/sheet-parts.js';
import type { SlimDrawingOptions, SlimmedDrawing } from './job/slim/slim-drawing.js';
import type { BuildJobOptions, BuildRefusal } from './job/build/build-job.js';
import type { BuiltJob } from './job/build/build-report.js';
import type { CleanedJob } from './job/build/clean-job.js';
import type { PlanBuildOptions } from './job/build/plan-build.js';
import type { JobState } from './job/build/watch-job.js';
import type { OwnReference } from './catalogue/own-reference.js';
import type { ReferenceFile } from './job/settings/read-references.js';
import type { KeptReference } from './job/settings/keep-reference.js';
import type { WeatheredPhoto, WeatherPhotoOptions } from './job/weather/weather-photo.js';

export { checkOwn, parseOwnId } from './catalogue/check-own.js';
export { ownKinds } from './catalogue/own-reference.js';
export { findBrick } from './catalogue/find-brick.js';
export { findCourse } from './catalogue/find-course.js';
export { findPaper } from './catalogue/find-paper.js';
export { findScale } from './catalogue/find-scale.js';
export { findSection } from './catalogue/find-section.js';
export { parsePaintKey } from './drawing/dress/paint-key.js';
export { parseDressRelief } from './job/dress/parse-dress-relief.js';
export { parseLight } from './finish/relief/light-side.js';
export { parseProfile } from './finish/relief/parse-profile.js';
export {
  parseFacing,
  parseFixing,
  parseLedge,
  parsePreset,
} from './finish/weather/parse-weather.js';
export { outOfRange } from './errors/out-of-range.js';
export { showPath } from './errors/show-path.js';
export { parseDotGain, parseInkLimit } from './job/print/parse-printing.js';
export { parseCorner, parseShape, parseStringCourse } from './job/fill/parse-wall.js';
export { scaleLength } from './job/measure/scale-length.js';
export { searchReference } from './job/measure/search-reference.js';
export { openSettings } from './job/settings/open-settings.js';
export { isRuledOut, noSettings } from './job/settings/settings.js';
export { isRegionMeant, toUsed } from './job/settings/settings-used.js';
export { limitOptions } from './limits/limits.js';
export { parseCount, parseSeconds } from './limits/parse-limit.js';
export { parseCorners, parseSpan } from './surface/parse-span.js';
export { parseChoice } from './units/parse-choice.js';
export { parseDpi } from './units/parse-dpi.js';
export { parseGrid } from './units/parse-grid.js';
export { parseBar, parseFactor, parseKept, parseShare, parseWhole } from './units/parse-number.js';
export { parseOffset, parsePlace, parseSigned } from './units/parse-place.js';
export { parsePrintLength, parseRealLength } from './units/parse-length.js';
export { parseNote } from './units/parse-note.js';
export { parsePoint } from './units/parse-point.js';
export { parsePrintSize, parseRealSize } from './units/parse-size.js';
export { parseTimes } from './units/parse-times.js';
export { parseStatedLength } from './units/parse-stated-length.js';

/**
 * Measure a photo.
 *
 * @param path - Where the photo lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function measurePhoto(
  path: string,
  options: MeasurePhotoOptions,
): Promise<Outcome<MeasuredPhoto | OfferedFormats, MeasureRefusal>> {
  const job = await import('./job/measure/measure-photo.js');
  return job.measurePhoto(path, options);
}

/**
 * Measure many photos.
 *
 * @param paths - Where the photos lie.
 * @param options - As in the library.
 * @yields As in the library.
 */
export async function* measurePhotos(
  paths: readonly string[],
  options: MeasurePhotosOptions,
): AsyncGenerator<PhotoAnswer, void> {
  const job = await import('./job/measure/measure-photos.js');
  yield* job.measurePhotos(paths, options);
}

/**
 * List photos, those of a folder in its place.
 *
 * @param paths - As in the library.
 * @returns As in the library.
 */
export async function listPhotos(paths: readonly string[]): Promise<readonly string[]> {
  const read = await import('./read/list-photos.js');
  return read.listPhotos(paths);
}

/**
 * Bring a photo to a model scale.
 *
 * @param path - Where the photo lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function scalePhoto(
  path: string,
  options: ScalePhotoOptions,
): Promise<Outcome<ScaledPhoto, MeasureRefusal | 'scale-doubtful'>> {
  const job = await import('./job/surface/scale-photo.js');
  return job.scalePhoto(path, options);
}

/**
 * Tell whether a photo repeats without a seam.
 *
 * @param path - Where the photo lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function inspectPhoto(
  path: string,
  options: InspectPhotoOptions,
): Promise<Outcome<InspectedPhoto, MeasureRefusal>> {
  const job = await import('./job/inspect/inspect-photo.js');
  return job.inspectPhoto(path, options);
}

/**
 * Make a photo repeat without a seam.
 *
 * @param path - Where the photo lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function mendPhoto(
  path: string,
  options: MendPhotoOptions,
): Promise<Outcome<MendedPhoto, MeasureRefusal | 'too-few-repeats'>> {
  const job = await import('./job/mend/mend-photo.js');
  return job.mendPhoto(path, options);
}

/**
 * Make a tile larger than the photos it is made of.
 *
 * @param paths - Where the photos lie.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function extendPhotos(
  paths: readonly string[],
  options: ExtendPhotosOptions,
): Promise<Outcome<ExtendedPhotos, ExtendRefusal>> {
  const job = await import('./job/extend/extend-photos.js');
  return job.extendPhotos(paths, options);
}

/**
 * Fill a part with a photo.
 *
 * @param path - Where the photo lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function fillPhoto(
  path: string,
  options: FillPhotoOptions,
): Promise<Outcome<FilledPhoto, MeasureRefusal | TileRefusal | 'scale-doubtful'>> {
  const job = await import('./job/fill/fill-photo.js');
  return job.fillPhoto(path, options);
}

/**
 * Draw pieces in relief.
 *
 * @param path - Where the photo under them lies, or null for a colour.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function makeRelief(
  path: string | null,
  options: MakeReliefOptions,
): Promise<Outcome<MadeRelief, SurfaceRefusal>> {
  const job = await import('./job/relief/make-relief.js');
  return job.makeRelief(path, options);
}

/**
 * Lay parts on pages at true size.
 *
 * @param paths - Where the parts' pictures lie.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function sheetParts(
  paths: readonly string[],
  options: SheetPartsOptions,
): Promise<Outcome<SheetedParts, SheetRefusal>> {
  const job = await import('./job/sheet/sheet-parts.js');
  return job.sheetParts(paths, options);
}

/**
 * Cover a drawing's outlines with surfaces.
 *
 * @param path - Where the drawing lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function dressDrawing(
  path: string,
  options: DressDrawingOptions,
): Promise<Outcome<DressedDrawing, DressRefusal>> {
  const job = await import('./job/dress/dress-drawing.js');
  return job.dressDrawing(path, options);
}

/**
 * Make a drawing's file smaller that prints the same.
 *
 * @param path - Where the drawing lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function slimDrawing(
  path: string,
  options: SlimDrawingOptions,
): Promise<Outcome<SlimmedDrawing, never>> {
  const job = await import('./job/slim/slim-drawing.js');
  return job.slimDrawing(path, options);
}

/**
 * Weather a photo of a wall.
 *
 * @param path - Where the photo lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function weatherPhoto(
  path: string,
  options: WeatherPhotoOptions,
): Promise<Outcome<WeatheredPhoto, MeasureRefusal | 'scale-doubtful' | 'too-small' | 'too-large'>> {
  const job = await import('./job/weather/weather-photo.js');
  return job.weatherPhoto(path, options);
}

/**
 * Build all of a job file.
 *
 * @param path - Where the job file lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function buildJob(
  path: string,
  options: BuildJobOptions,
): Promise<Outcome<BuiltJob, BuildRefusal>> {
  const job = await import('./job/build/build-job.js');
  return job.buildJob(path, options);
}

/**
 * Throw away what was kept beside a job file.
 *
 * @param path - Where the job file lies.
 * @returns As in the library.
 */
export async function cleanJob(path: string): Promise<CleanedJob> {
  const job = await import('./job/build/clean-job.js');
  return job.cleanJob(path);
}

/**
 * Look at all files that a job reads.
 *
 * @param path - Where the job file lies.
 * @param options - As in the library.
 * @param before - As in the library.
 * @returns As in the library.
 */
export async function lookAtJob(
  path: string,
  options: PlanBuildOptions & LimitOptions,
  before?: JobState,
): Promise<JobState> {
  const job = await import('./job/build/watch-job.js');
  return job.lookAtJob(path, options, before);
}

/**
 * Wait until a file of a job changed.
 *
 * @param before - As in the library.
 * @returns Once that is so.
 */
export async function waitForChange(before: JobState): Promise<void> {
  const job = await import('./job/build/watch-job.js');
  return job.waitForChange(before);
}

/**
 * Make a page to print and to learn a printer from.
 *
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function makeTestStrip(
  options: MakeTestStripOptions,
): Promise<Outcome<MadeTestStrip, 'paper-too-small'>> {
  const job = await import('./job/print/make-test-strip.js');
  return job.makeTestStrip(options);
}

/**
 * Learn a printer from its test strip.
 *
 * @param path - Where the scan or photo of it lies.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function readTestStrip(
  path: string,
  options: ReadTestStripOptions,
): Promise<Outcome<LearntPrinter, StripRefusal>> {
  const job = await import('./job/print/read-test-strip.js');
  return job.readTestStrip(path, options);
}

/**
 * Write a reference of one's own into a file.
 *
 * @param path - Of the file.
 * @param own - What to keep.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function addReference(
  path: string,
  own: OwnReference,
  options: LimitOptions,
): Promise<Outcome<KeptReference, 'reference-there'>> {
  const job = await import('./job/settings/keep-reference.js');
  return job.addReference(path, own, options);
}

/**
 * Take a reference of one's own out of a file.
 *
 * @param path - Of the file.
 * @param id - Which one.
 * @param options - As in the library.
 * @returns As in the library.
 */
export async function removeReference(
  path: string,
  id: string,
  options: LimitOptions,
): Promise<Outcome<KeptReference, 'no-entry'>> {
  const job = await import('./job/settings/keep-reference.js');
  return job.removeReference(path, id, options);
}

/**
 * Read a file of references.
 *
 * @param path - Of the file.
 * @param options - As in the library.
 * @returns What it holds.
 */
export async function readReferences(path: string, options: LimitOptions): Promise<ReferenceFile> {
  const job = await import('./job/settings/read-references.js');
  return job.readReferences(path, options);
}
