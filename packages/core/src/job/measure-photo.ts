import { outOfRange } from '../errors/out-of-range.js';
import type { Outcome } from '../errors/outcome.js';
import { type Notes, readNotes } from '../read/read-notes.js';
import { type Photo, readPhoto } from '../read/read-photo.js';
import type { Measurement } from '../surface/measurement.js';
import { writeSidecar } from '../write/write-sidecar.js';
import { findMeasurement, type MeasureRefusal } from './find-measurement.js';
import { beginStep, type JobOptions } from './job-options.js';
import { checkReference, type ReferenceOptions } from './reference-options.js';
import { type MeasurementReport, reportMeasurement } from './report-measurement.js';
import { type PhotoReport, reportPhoto } from './report-photo.js';

/** What {@link measurePhoto} may be told. */
export interface MeasurePhotoOptions extends ReferenceOptions, JobOptions {
  /** Keep the measurement in a file beside the photo, for later jobs. */
  readonly save?: boolean;
  /** The terms under which the photo may be used, kept with it; needs `save`. */
  readonly licence?: string;
  /** Whose photo it is, kept with it; needs `save`. */
  readonly credit?: string;
}

/** How big what a photo shows really is. */
export interface MeasuredPhoto extends MeasurementReport {
  /** The photo, upright. */
  readonly photo: PhotoReport;
  /** The file it was kept in, where that was asked. */
  readonly sidecar?: string;
}

/**
 * Measure a photo.
 *
 * @param path - Where the photo lies.
 * @param options - What is known of it; with nothing, what was kept beside it is read.
 * @returns Millimetres per pixel, how found and how sure, or why it could not be measured.
 * @throws RangeError when the options make no sense together.
 * @throws TextureError when a file does not allow it.
 */
export async function measurePhoto(
  path: string,
  options: MeasurePhotoOptions = {},
): Promise<Outcome<MeasuredPhoto, MeasureRefusal>> {
  const { save = false } = options;
  checkReference(options);
  checkNotes(options);
  beginStep('reading', options);
  const photo = await readPhoto(path);
  // Before the long work: the place may be another photo's.
  const notes = save ? await readNotes(photo) : null;
  const found = await findMeasurement(photo, options);
  if (!found.ok) return found;
  const { measurement } = found.value;
  const sidecar = notes && (await keep(photo, measurement, { ...options, notes }));
  return {
    ok: true,
    value: {
      photo: reportPhoto(photo),
      ...reportMeasurement(measurement, photo),
      ...(sidecar !== null && { sidecar }),
    },
    warnings: [...photo.warnings, ...found.warnings],
  };
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
