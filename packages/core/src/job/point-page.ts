import { basename } from 'node:path';
import type { Outcome } from '../errors/outcome.js';
import { type CourseFit, findCourses } from '../measure/find-courses.js';
import type { PointedPhoto } from '../measure/pointed-photo.js';
import { slantByEye } from '../measure/slant-by-eye.js';
import { type Raster } from '../raster/raster.js';
import { resampleRaster } from '../raster/resample-raster.js';
import { toRows } from '../raster/row-source.js';
import { readNotes } from '../read/read-notes.js';
import type { Photo } from '../read/read-photo.js';
import type { CourseAxis } from '../surface/measurement.js';
import { encodePicture } from '../write/encode-picture.js';
import { writePointerPage } from '../write/write-pointer-page.js';
import { findLens } from './find-lens.js';
import { beginStep } from './job-options.js';
import type { MeasurePhotoOptions } from './measure-known.js';
import { judgeUnit, measureUnit, type UnitLook } from './offer-formats.js';
import { startPointing } from './start-pointing.js';

/**
 * Write a page on which a photo is measured by pointing at it.
 *
 * @param path - Where to.
 * @param photo - All of it.
 * @param options - What was said of it.
 * @throws TextureError when a file does not allow it.
 */
export async function writePage(
  path: string,
  photo: Photo,
  options: MeasurePhotoOptions,
): Promise<void> {
  const { axis = 'y', focal } = options;
  const { width, height, sha256 } = photo;
  const lens = findLens(photo, focal ?? null);
  const look = (of: CourseAxis): Outcome<CourseFit, 'no-courses'> =>
    findCourses(photo.raster, {
      axis: of,
      // Perpends are for the eye, and of the way that is looked at first.
      listed: of === axis,
      ...(lens.ok && { focal: lens.value }),
    });
  const looks = { y: look('y'), x: look('x') };
  const unit = await measureUnit(photo, pick(options));
  const judgement = unit.ok ? judgeUnit(unit.value.measurement, options.region) : null;
  const notes = await readNotes(photo);
  const shown = toShown(photo.raster);
  const told: PointedPhoto = {
    own: options.references ?? [],
    photo: { file: basename(photo.path), sha256, width, height },
    shown: { width: shown.width, height: shown.height },
    focal: lens.ok ? lens.value : null,
    focalGiven: focal === undefined ? null : `${focal}mm`,
    slant: slantByEye,
    looks,
    unit: unit.ok ? { measurement: unit.value.measurement, aspect: unit.value.aspect ?? 0 } : null,
    likely: toLikely(judgement),
    start: startPointing(photo, options, { looks, found: unit.ok }),
    licence: options.licence ?? notes.licence,
    credit: options.credit ?? notes.credit,
  };
  beginStep('writing', options);
  const jpeg = await encodePicture(toRows(shown), { format: 'jpeg', quality });
  const title = `${basename(photo.path)}: how big is it?`;
  await writePointerPage(path, { title, told, jpeg }, [photo.path]);
}

function toLikely(judgement: ReturnType<typeof judgeUnit>): PointedPhoto['likely'] {
  const formats = judgement?.formats ?? [];
  return formats.map(({ reference, probability }) => ({ id: reference.id, probability }));
}

// In full colour resolution nobody sees it from the photo, pixel by pixel.
const quality = 90;

// Longer sides are more than browsers show.
const longestShown = 16_000;

function toShown(raster: Raster): Raster {
  const { width, height } = raster;
  const by = longestShown / Math.max(width, height);
  if (by >= 1) return raster;
  const side = (px: number): number => Math.max(1, Math.round(px * by));
  return resampleRaster(raster, { width: side(width), height: side(height) });
}

// Nothing of what it is said to be.
function pick({ axis, focal, onProgress, signal }: MeasurePhotoOptions): UnitLook {
  return {
    ...(axis !== undefined && { axis }),
    ...(focal !== undefined && { focal }),
    ...(onProgress !== undefined && { onProgress }),
    ...(signal !== undefined && { signal }),
  };
}
