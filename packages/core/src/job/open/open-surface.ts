import type { CourseReference } from '../../catalogue/course-reference.js';
import type { NamedScale } from '../../catalogue/find-scale.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Straighten } from '../../measure/slant/judge-stand.js';
import type { Raster } from '../../raster/raster.js';
import type { Photo } from '../../read/read-photo.js';
import { readSidecar } from '../../read/read-sidecar.js';
import type { Lattice, Measurement, PerAxis } from '../../surface/measurement.js';
import { findMeasurement, type MeasureRefusal } from '../measure/find-measurement.js';
import { hintFormats } from '../measure/hint-formats.js';
import { hintKept } from '../measure/hint-kept.js';
import type { JobOptions } from '../job-options.js';
import { leaveAskew } from '../measure/leave-askew.js';
import { openLevel } from './open-level.js';
import type { ReferenceOptions } from '../measure/reference-options.js';

/** What may be told of a picture to inspect. */
export interface SurfaceOptions extends Pick<ReferenceOptions, 'references'>, JobOptions {
  /**
   * How far a photo that lies askew is straightened first; `full` unless told, and with `none` the
   * file is left alone.
   */
  readonly straighten?: Straighten;
  /** What its courses are: then lengths are told in millimetres. */
  readonly course?: CourseReference;
  /** Of the model: then lengths are those on paper. Needs `course`, or what was kept beside the photo. */
  readonly scale?: NamedScale;
}

/** A picture to inspect, level, and what is known of its size. */
export interface InspectedSurface {
  /** What to look at. */
  readonly raster: Raster;
  /** Millimetres of the real thing to a pixel, or null where nobody knows. */
  readonly mmPerPx: PerAxis<number> | null;
  /** Where its joints lie, or null where nobody knows. */
  readonly lattice: Lattice | null;
}

/**
 * Open a picture as it is to be inspected: measured where its courses are told or a scale is wanted,
 * else by what was kept beside it, else as it is.
 *
 * @param photo - As read.
 * @param options - What is known of it.
 * @returns The picture, or why it could not be measured.
 * @throws TextureError when the file kept beside it does not allow it.
 */
export async function openSurface(
  photo: Photo,
  options: SurfaceOptions,
): Promise<Outcome<InspectedSurface, MeasureRefusal>> {
  const { straighten = 'full', course, references, scale, onProgress, signal } = options;
  if (course !== undefined || scale !== undefined) {
    const found = await findMeasurement(photo, {
      ...(onProgress && { onProgress }),
      ...(signal && { signal }),
      ...(course && { course }),
      ...(references && { references }),
      straighten,
    });
    if (!found.ok) return hintFormats(hintKept(found), photo, options);
    const { measurement } = found.value;
    return { ok: true, value: levelled(photo, measurement), warnings: found.warnings };
  }
  const kept = straighten === 'none' ? null : await readSidecar(photo);
  if (kept === null) {
    return {
      ok: true,
      value: { raster: photo.raster, mmPerPx: null, lattice: null },
      warnings: [],
    };
  }
  const { measurement, warnings } = leaveAskew(kept.measurement, photo, straighten);
  return { ok: true, value: levelled(photo, measurement), warnings };
}

function levelled(photo: Photo, measurement: Measurement): InspectedSurface {
  const { look, lattice } = openLevel(photo.raster, { ...measurement, enough: 1 });
  return { raster: look, mmPerPx: measurement.mmPerPx, lattice };
}
