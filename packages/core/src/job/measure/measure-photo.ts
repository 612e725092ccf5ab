import { withLimits } from '../../read/held-limits.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import { refuseFolder } from '../../read/list-photos.js';
import { type OpenedPhoto, openPhoto } from '../../read/open-photo.js';
import type { Photo } from '../../read/read-photo.js';
import { type Notes, readNotes } from '../../read/read-notes.js';
import { readSidecar } from '../../read/read-sidecar.js';
import { lookLimits } from '../../measure/look-limits.js';
import { checkOutput } from '../../write/check-output.js';
import { checkPointerPage } from '../../write/write-pointer-page.js';
import type { MeasureRefusal } from './find-measurement.js';
import { beginStep } from '../job-options.js';
import type { MeasuredPhoto, MeasurePhotoOptions } from './measure-known.js';
import { noFormats, type OfferedFormats } from './offer-formats.js';
import { checkPage } from './check-page.js';
import { checkReference, namesReference, type ReferenceOptions } from './reference-options.js';

/** Options that name a reference, so that the answer is a measurement or a refusal. */
export type NamedReference = {
  readonly [Name in 'course' | 'spans' | 'distance']: Required<Pick<ReferenceOptions, Name>>;
}['course' | 'spans' | 'distance'];

/**
 * Measure a photo.
 *
 * @param path - Where the photo lies.
 * @param options - What is known of it; with nothing, what was kept beside it is read.
 * @returns Millimetres per pixel, how found and how sure; where nothing is known nor kept, and
 *   nothing is to be kept, what its courses could be; or why it could not be measured.
 * @throws RangeError when the options make no sense together.
 * @throws TextureError when a file does not allow it.
 */
export async function measurePhoto(
  path: string,
  options: MeasurePhotoOptions & NamedReference,
): Promise<Outcome<MeasuredPhoto, MeasureRefusal>>;
/**
 * Measure a photo.
 *
 * @param path - Where the photo lies.
 * @param options - What is known of it; with nothing, what was kept beside it is read.
 * @returns Millimetres per pixel, how found and how sure; where nothing is known nor kept, and
 *   nothing is to be kept, what its courses could be; or why it could not be measured.
 * @throws RangeError when the options make no sense together.
 * @throws TextureError when a file does not allow it.
 */
export async function measurePhoto(
  path: string,
  options?: MeasurePhotoOptions,
): Promise<Outcome<MeasuredPhoto | OfferedFormats, MeasureRefusal>>;
export async function measurePhoto(
  path: string,
  options: MeasurePhotoOptions = {},
): Promise<Outcome<MeasuredPhoto | OfferedFormats, MeasureRefusal>> {
  return withLimits(options, () => measureWithin(path, options));
}

async function measureWithin(
  path: string,
  options: MeasurePhotoOptions,
): Promise<Outcome<MeasuredPhoto | OfferedFormats, MeasureRefusal>> {
  const { save = false, overlay, page } = options;
  const given = withoutLens(options);
  const kind = checkMeasuring(options);
  await checkOutputs(path, options);
  beginStep('reading', options);
  await refuseFolder(path);
  // An overlay is drawn on all of the photo; places are marked by hand in all of it.
  const all = kind !== 'courses' || overlay !== undefined || page !== undefined;
  const longest = all ? Infinity : lookLimits.longest;
  // Most of the library is loaded while the decoder's own threads work.
  const [opened, { measureKnown }] = await Promise.all([
    openPhoto(path, { longest }),
    import('./measure-known.js'),
  ]);
  // Before the long work: what is kept there may be another photo's.
  const notes = page === undefined ? null : await readNotes(opened.look);
  const unknown = options.region !== undefined || (!save && (await isUnknown(opened.look, given)));
  const outcome = unknown
    ? await (await import('./offer-formats.js')).offerFormats(opened.look, options)
    : await measureKnown(opened, given);
  const answer = overlay === undefined ? outcome : tellOfOverlay(outcome);
  return notes === null ? answer : withPage(opened, { outcome: answer, options, notes });
}

/**
 * Refuse options that make no sense together, whatever the photo.
 *
 * @param options - As given.
 * @returns By what is to be measured.
 * @throws RangeError when they do not.
 */
export function checkMeasuring(
  options: MeasurePhotoOptions,
): ReturnType<typeof checkReference>['kind'] {
  const { kind } = checkReference(withoutLens(options));
  checkRegion(options);
  checkNotes(options);
  checkPage(options);
  return kind;
}

function tellOfOverlay(outcome: Answered['outcome']): Answered['outcome'] {
  if (outcome.ok) return outcome;
  return { ...outcome, message: `${outcome.message}, so no overlay was written` };
}

async function checkOutputs(path: string, options: MeasurePhotoOptions): Promise<void> {
  const { overlay, page } = options;
  if (page !== undefined) await checkPointerPage(page, [path]);
  if (overlay !== undefined) await checkOutput(overlay, { inputs: [path] });
}

interface Answered {
  readonly outcome: Outcome<MeasuredPhoto | OfferedFormats, MeasureRefusal>;
  readonly options: MeasurePhotoOptions;
  readonly notes: Notes;
}

// It is wanted most where nothing was found.
async function withPage(
  { look }: OpenedPhoto,
  { outcome, options, notes }: Answered,
): Promise<Answered['outcome']> {
  const { page } = options;
  if (page === undefined) return outcome;
  const { writePage } = await import('./point-page.js');
  await writePage(page, look, { ...options, notes });
  if (outcome.ok) return { ...outcome, value: { ...outcome.value, page } };
  const hint = `open ${showPath(page)} in a browser and point at what you know`;
  if (outcome.code === 'no-courses' && !namesReference(withoutLens(options))) {
    const warning = { code: 'no-courses', message: `${outcome.message}: ${hint}` } as const;
    return { ok: true, value: { ...noFormats(look), page }, warnings: [warning] };
  }
  return { ...outcome, hint: outcome.hint === undefined ? hint : `${outcome.hint}; or ${hint}` };
}

// Where nothing is known yet, a focal length is for whoever points at the page.
function withoutLens(options: MeasurePhotoOptions): MeasurePhotoOptions {
  const { focal, ...others } = options;
  if (focal === undefined || options.page === undefined) return options;
  return namesReference(others) ? options : others;
}

async function isUnknown(photo: Photo, options: MeasurePhotoOptions): Promise<boolean> {
  if (namesReference(options)) return false;
  try {
    return (await readSidecar(photo)) === null;
  } catch (error) {
    // A photo that has changed is pointed at to measure it again.
    const isOld = error instanceof TextureError && error.code === 'stale-sidecar';
    if (isOld && options.page !== undefined) return true;
    throw error;
  }
}

function checkRegion(options: MeasurePhotoOptions): void {
  const { region, save = false } = options;
  if (region === undefined) return;
  if (namesReference(options)) throw outOfRange('no region beside a reference', 'region', region);
  if (save) throw outOfRange('no region where a measurement is to be kept', 'region', region);
}

function checkNotes(options: MeasurePhotoOptions): void {
  const { save = false, page, licence, credit } = options;
  if (save || page !== undefined || (licence === undefined && credit === undefined)) return;
  const name = licence === undefined ? 'credit' : 'licence';
  throw outOfRange('a measurement to be kept with it (save)', name, licence ?? credit);
}
