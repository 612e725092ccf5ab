import type { FormatRegion } from '../catalogue/region-of.js';
import { outOfRange } from '../errors/out-of-range.js';
import type { Outcome } from '../errors/outcome.js';
import { type Notes, readNotes } from '../read/read-notes.js';
import { type Photo, readPhoto } from '../read/read-photo.js';
import { readSidecar } from '../read/read-sidecar.js';
import type { Measurement } from '../surface/measurement.js';
import { checkOutput } from '../write/check-output.js';
import { writeSidecar } from '../write/write-sidecar.js';
import type { MeasureRefusal } from './find-measurement.js';
import { hintFormats } from './hint-formats.js';
import { beginStep, type JobOptions } from './job-options.js';
import { longestLook, measureReduced } from './measure-reduced.js';
import { offerFormats, type OfferedFormats } from './offer-formats.js';
import { checkReference, namesReference, type ReferenceOptions } from './reference-options.js';
import { type MeasurementReport, reportMeasurement } from './report-measurement.js';
import { type PhotoReport, reportPhoto } from './report-photo.js';
import { reportSpan, type SpanReport } from './report-span.js';
import { warnOfCopies } from './warn-of-copies.js';
import { writeOverlay } from './write-overlay.js';

/** What `measurePhoto` may be told. */
export interface MeasurePhotoOptions extends ReferenceOptions, JobOptions {
  /** Keep the measurement in a file beside the photo, for later jobs. */
  readonly save?: boolean;
  /** A picture to write that shows what the measurement rests on. */
  readonly overlay?: string;
  /** The terms under which the photo may be used, kept with it; needs `save`. */
  readonly licence?: string;
  /** Whose photo it is, kept with it; needs `save`. */
  readonly credit?: string;
  /**
   * Where the wall stands: asks what its courses could be, whatever was kept beside the photo; not
   * with a reference, nor with `save`.
   */
  readonly region?: FormatRegion;
}

/** How big what a photo shows really is. */
export interface MeasuredPhoto extends MeasurementReport {
  /** The photo, upright. */
  readonly photo: PhotoReport;
  /** The spans it rests on, in the order given, where it rests on any. */
  readonly spans?: readonly SpanReport[];
  /** The file it was kept in, where that was asked. */
  readonly sidecar?: string;
  /** The picture written of what it rests on, where that was asked. */
  readonly overlay?: string;
}

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
  const { save = false, overlay } = options;
  const { kind } = checkReference(options);
  checkRegion(options);
  checkNotes(options);
  if (overlay !== undefined) await checkOutput(overlay, { inputs: [path] });
  beginStep('reading', options);
  // An overlay is drawn on all of the photo; places are marked by hand in all of it.
  const longest = kind === 'courses' && overlay === undefined ? longestLook : Infinity;
  const photo = await readPhoto(path, { longest });
  const unknown = options.region !== undefined || (!save && (await isUnknown(photo, options)));
  const outcome = await (unknown ? offerFormats : measureKnown)(photo, options);
  if (outcome.ok || overlay === undefined) return outcome;
  return { ...outcome, message: `${outcome.message}, so no overlay was written` };
}

async function measureKnown(
  first: Photo,
  options: MeasurePhotoOptions,
): Promise<Outcome<MeasuredPhoto, MeasureRefusal>> {
  const { save = false, overlay } = options;
  // Before the long work: the place may be another photo's.
  const notes = save ? await readNotes(first) : null;
  const { photo, found } = await measureReduced(first, options);
  if (!found.ok) return hintFormats(found, photo);
  const { measurement, spans, copies } = found.value;
  if (overlay !== undefined) {
    beginStep('writing', options);
    await writeOverlay(overlay, photo, found.value, options);
  }
  const sidecar = notes && (await keep(photo, measurement, { ...options, notes }));
  return {
    ok: true,
    value: {
      photo: reportPhoto(photo),
      ...reportMeasurement(measurement, photo),
      ...(spans !== null && { spans: spans.map(reportSpan) }),
      ...(sidecar !== null && { sidecar }),
      ...(overlay !== undefined && { overlay }),
    },
    warnings: [...photo.warnings, ...found.warnings, ...warnOfCopies(copies, photo)],
  };
}

async function isUnknown(photo: Photo, options: ReferenceOptions): Promise<boolean> {
  return !namesReference(options) && (await readSidecar(photo)) === null;
}

function checkRegion(options: MeasurePhotoOptions): void {
  const { region, save = false } = options;
  if (region === undefined) return;
  if (namesReference(options)) throw outOfRange('no region beside a reference', 'region', region);
  if (save) throw outOfRange('no region where a measurement is to be kept', 'region', region);
}

function checkNotes({ save = false, licence, credit }: MeasurePhotoOptions): void {
  if (save || (licence === undefined && credit === undefined)) return;
  const name = licence === undefined ? 'credit' : 'licence';
  throw outOfRange('a measurement to be kept with it (save)', name, licence ?? credit);
}

// Notes kept before stay, where no others are given.
async function keep(
  photo: Photo,
  measurement: Measurement,
  options: MeasurePhotoOptions & { readonly notes: Notes },
): Promise<string> {
  beginStep('writing', options);
  const { notes, licence = notes.licence, credit = notes.credit } = options;
  return writeSidecar(photo, { measurement, licence, credit });
}
