import type { FormatRegion } from '../../catalogue/region-of.js';
import type { Outcome } from '../../errors/outcome.js';
import { readNotes } from '../../read/read-notes.js';
import type { OpenedPhoto } from '../../read/open-photo.js';
import type { Photo } from '../../read/read-photo.js';
import { realEnd } from '../../read/real-path.js';
import { sidecarPath } from '../../surface/sidecar-path.js';
import { whileLocked } from '../../write/while-locked.js';
import { writeSidecar } from '../../write/write-sidecar.js';
import type { MeasureRefusal } from './find-measurement.js';
import { hintFormats } from './hint-formats.js';
import { isPlain } from './is-plain.js';
import { isTile } from './is-tile.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { measureReduced, type WithCopies } from './measure-reduced.js';
import type { ReferenceOptions } from './reference-options.js';
import { type MeasurementReport, reportMeasurement } from './report-measurement.js';
import { type PhotoReport, reportPhoto } from './report-photo.js';
import { reportSpan, type SpanReport } from './report-span.js';
import { warnOfCopies } from './warn-of-copies.js';

/** What `measurePhoto` may be told. */
export interface MeasurePhotoOptions extends ReferenceOptions, JobOptions {
  /** Keep the measurement in a file beside the photo, for later jobs. */
  readonly save?: boolean;
  /** A picture to write that shows what the measurement rests on. */
  readonly overlay?: string;
  /**
   * A page to write on which the photo is measured by pointing at it, `.html`; also where it could not be
   * measured. Needs a photo that may be straightened wholly.
   */
  readonly page?: string;
  /** The terms under which the photo may be used, kept with it; needs `save` or `page`. */
  readonly licence?: string;
  /** Whose photo it is, kept with it; needs `save` or `page`. */
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
  /** The page written to point at the photo with, where that was asked. */
  readonly page?: string;
}

/**
 * Measure a photo by what is known of it, and keep or draw what was found where that was asked.
 *
 * @param opened - As read, perhaps made smaller.
 * @param options - What is known of it, here or beside it.
 * @returns Millimetres per pixel, how found and how sure, or why it could not be measured.
 * @throws TextureError when a file does not allow it.
 */
export async function measureKnown(
  opened: OpenedPhoto,
  options: MeasurePhotoOptions,
): Promise<Outcome<MeasuredPhoto, MeasureRefusal>> {
  const { save = false, overlay } = options;
  // Before the long work: the place may be another photo's.
  if (save) await readNotes(opened.look);
  const { photo, found } = await measureReduced(opened, {
    ...options,
    listed: overlay !== undefined,
  });
  if (!found.ok) return hintFormats(found, photo, options);
  const { measurement, spans, copies } = found.value;
  if (overlay !== undefined) {
    beginStep('writing', options);
    const { writeOverlay } = await import('./write-overlay.js');
    await writeOverlay(overlay, photo, found.value, options);
  }
  const sidecar = save ? await keep(opened, { photo, found: found.value }, options) : null;
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

// Notes kept before stay, where no others are given. They are read again: somebody else may have kept some meanwhile, or
// another photo's measurement.
async function keep(
  opened: OpenedPhoto,
  { photo, found }: { readonly photo: Photo; readonly found: WithCopies },
  options: MeasurePhotoOptions,
): Promise<string> {
  beginStep('writing', options);
  const { measurement } = found;
  const plain = await isPlain(opened, { photo, found });
  const finished = await isTile(opened, { photo, found, plain });
  return whileLocked(await realEnd(sidecarPath(photo.path)), async () => {
    const notes = await readNotes(opened.look);
    const { licence = notes.licence, credit = notes.credit } = options;
    return writeSidecar(photo, { measurement, finished, plain, licence, credit });
  });
}
