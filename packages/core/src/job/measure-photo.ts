import { outOfRange } from '../errors/out-of-range.js';
import type { Outcome } from '../errors/outcome.js';
import { type Photo, readPhoto } from '../read/read-photo.js';
import { writeSidecar } from '../write/write-sidecar.js';
import { findMeasurement, type FoundMeasurement, type MeasureRefusal } from './find-measurement.js';
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
  /** The file it was kept in, now or before, or null. */
  readonly sidecar: string | null;
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
  const found = await findMeasurement(photo, options);
  if (!found.ok) return found;
  const { measurement, kept } = found.value;
  const sidecar = save ? await keep(photo, found.value, options) : (kept?.path ?? null);
  return {
    ok: true,
    value: { photo: reportPhoto(photo), ...reportMeasurement(measurement, photo), sidecar },
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
  { measurement, kept }: FoundMeasurement,
  options: MeasurePhotoOptions,
): Promise<string> {
  beginStep('writing', options);
  const { licence = kept?.licence ?? null, credit = kept?.credit ?? null } = options;
  return writeSidecar(photo, { measurement, licence, credit });
}
