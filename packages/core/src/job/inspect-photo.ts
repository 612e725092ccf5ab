import type { Outcome } from '../errors/outcome.js';
import type { Warning } from '../errors/warning.js';
import type { Straighten } from '../measure/slant/judge-stand.js';
import type { Raster } from '../raster/raster.js';
import { toRows } from '../raster/row-source.js';
import { type Photo, readPhoto } from '../read/read-photo.js';
import { readSidecar } from '../read/read-sidecar.js';
import { findCopies } from '../seam/find-copies.js';
import { inspectSeams, type Seam, type SeamInspection } from '../seam/inspect-seams.js';
import { checkOutput } from '../write/check-output.js';
import { writePicture } from '../write/write-picture.js';
import { drawSeams, type RepeatAxis } from './draw-seams.js';
import { beginStep, type JobOptions } from './job-options.js';
import { leaveAskew } from './leave-askew.js';
import { openLevel } from './open-level.js';
import { reportSeam } from './report-seam.js';
import { warnOfCopies } from './warn-of-copies.js';

/** What {@link inspectPhoto} may be told. */
export interface InspectPhotoOptions extends JobOptions {
  /**
   * How far a photo whose surface file says that it lies askew is straightened first; `full` unless
   * told, and with `none` the file is left alone.
   */
  readonly straighten?: Straighten;
  /** Which way the picture is meant to repeat; `both` unless told. */
  readonly axis?: RepeatAxis;
  /** A picture to write that shows the seams. */
  readonly picture?: string;
}

/** How well a picture repeats. */
export interface InspectedPhoto {
  /** Laid side by side. */
  readonly x: Seam;
  /** Laid one above the other. */
  readonly y: Seam;
  /** In words. */
  readonly verdict: string;
}

/**
 * Tell whether a picture repeats without a seam.
 *
 * @param path - Of the picture.
 * @param options - Which way, and whether to draw it.
 * @returns Scores along both axes, and a verdict.
 * @throws TextureError when a file does not allow it.
 */
export async function inspectPhoto(
  path: string,
  options: InspectPhotoOptions = {},
): Promise<Outcome<InspectedPhoto, never>> {
  const { axis = 'both', picture, straighten = 'full' } = options;
  if (picture !== undefined) await checkOutput(picture, { inputs: [path] });
  beginStep('reading', options);
  const photo = await readPhoto(path);
  beginStep('inspecting', options);
  const { raster, warnings } = await openStraight(photo, straighten);
  const seams = inspectSeams(raster);
  if (picture !== undefined) {
    beginStep('writing', options);
    await writePicture(picture, toRows(drawSeams(raster, seams, axis)), { inputs: [path] });
  }
  const { x, y } = seams;
  return {
    ok: true,
    value: { x: reportSeam(x), y: reportSeam(y), verdict: inWords(seams, axis) },
    warnings: [
      ...photo.warnings,
      ...warnings,
      ...seams.warnings,
      ...warnOfCopies(findCopies(raster), raster),
    ],
  };
}

async function openStraight(
  photo: Photo,
  straighten: Straighten,
): Promise<{ readonly raster: Raster; readonly warnings: readonly Warning[] }> {
  const kept = straighten === 'none' ? null : await readSidecar(photo);
  if (kept === null) return { raster: photo.raster, warnings: [] };
  const { measurement, warnings } = leaveAskew(kept.measurement, photo, straighten);
  return { raster: openLevel(photo.raster, { ...measurement, enough: 1 }).look, warnings };
}

function inWords(seams: SeamInspection, axis: RepeatAxis): string {
  if (axis === 'both') return seams.verdict;
  const repeats = seams[axis].seamless ? 'repeats without a seam' : 'shows a seam';
  return `${repeats} ${axis === 'x' ? 'side by side' : 'one above the other'}`;
}
