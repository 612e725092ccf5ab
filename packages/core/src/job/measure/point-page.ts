import { basename } from 'node:path';
import { findCourses } from '../../measure/find-courses.js';
import type { PointedPhoto } from '../../measure/given/pointed-photo.js';
import { slantByEye } from '../../measure/given/slant-by-eye.js';
import { type Raster } from '../../raster/raster.js';
import { resampleRaster } from '../../raster/resample-raster.js';
import { toRows } from '../../raster/row-source.js';
import type { Notes } from '../../read/read-notes.js';
import type { Photo } from '../../read/read-photo.js';
import { encodePicture } from '../../write/encode-picture.js';
import { writePointerPage } from '../../write/write-pointer-page.js';
import { seamsOf } from '../../seam/inspect/inspect-seams.js';
import { findLens } from './find-lens.js';
import { beginStep } from '../job-options.js';
import { showsNone } from './is-plain.js';
import type { MeasurePhotoOptions } from './measure-known.js';
import { judgeUnit, measureUnit, type UnitLook } from './offer-formats.js';
import { startPointing } from './start-pointing.js';

/**
 * Write a page on which a photo is measured by pointing at it.
 *
 * @param path - Where to.
 * @param photo - All of it.
 * @param options - What was said of it, and the notes kept beside it.
 * @throws TextureError when a file does not allow it.
 */
export async function writePage(
  path: string,
  photo: Photo,
  options: MeasurePhotoOptions & { readonly notes: Notes },
): Promise<void> {
  const { axis = 'y', focal, notes } = options;
  const { width, height, sha256 } = photo;
  const lens = findLens(photo, focal ?? null);
  // Perpends are for the eye.
  const how = { axis, listed: true, ...(lens.ok && { focal: lens.value }) };
  const look = findCourses(photo.raster, how);
  const unit = await measureUnit(photo, pick(options));
  const judgement = unit.ok ? judgeUnit(unit.value.measurement, options) : null;
  const shown = toShown(photo.raster);
  const told: PointedPhoto = {
    own: options.references ?? [],
    photo: { file: basename(photo.path), sha256, width, height },
    shown: { width: shown.width, height: shown.height },
    focal: lens.ok ? lens.value : null,
    focalGiven: focal === undefined ? null : `${focal}mm`,
    slant: slantByEye,
    axis,
    look,
    unit: unit.ok ? toUnit(unit) : null,
    tile: meetsItself(photo.raster),
    plain: isPlain(photo.raster, look),
    likely: toLikely(judgement),
    start: startPointing(photo, options, { look, found: unit.ok }),
    licence: options.licence ?? notes.licence,
    credit: options.credit ?? notes.credit,
  };
  beginStep('writing', options);
  const jpeg = await encodePicture(toRows(shown), { format: 'jpeg', quality });
  const title = `${basename(photo.path)}: how big is it?`;
  await writePointerPage(path, { title, told, jpeg }, [photo.path]);
}

function toUnit({
  value: { measurement, aspect = 0 },
  warnings,
}: Found): NonNullable<PointedPhoto['unit']> {
  return { measurement, aspect, warnings };
}

type Found = Extract<Awaited<ReturnType<typeof measureUnit>>, { readonly ok: true }>;

// Courses that lie level need not be found twice.
function isPlain(raster: Raster, look: PointedPhoto['look']): boolean {
  return !(look.ok && look.value.rectification === null) && showsNone(raster);
}

function meetsItself(raster: Raster): boolean {
  const seams = seamsOf(raster);
  return seams.x.seamless && seams.y.seamless;
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
