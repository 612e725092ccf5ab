import type { Outcome } from '../../errors/outcome.js';
import type { Raster } from '../../raster/raster.js';
import { openPhoto } from '../../read/open-photo.js';
import type { Photo } from '../../read/photo.js';
import { type AxisCopies, findCopies } from '../../seam/copies/find-copies.js';
import { inspectSeams } from '../../seam/inspect/inspect-seams.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { RepeatAxis } from '../inspect/draw-seams.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { findLie } from '../measure/find-lie.js';
import {
  findMeasurement,
  type FoundMeasurement,
  type MeasureRefusal,
} from '../measure/find-measurement.js';
import { findRepeat, type FoundRepeat, repeatOf } from '../measure/find-repeat.js';
import { hintKept } from '../measure/hint-kept.js';
import type { ReferenceOptions } from '../measure/reference-options.js';
import { openLevel } from '../open/open-level.js';
import { evenPicture, type EvenPicture } from './even-picture.js';

// Seen of 24 and of 96 million pixels: the even picture and its tile, twelve each, and bands along their seams.
const perPixel = 30;

/** How a photo is to be mended, as far as it is asked here. */
export interface OpenEvenOptions
  extends Pick<ReferenceOptions, 'course' | 'references' | 'straighten'>, JobOptions {
  /** Which way the result is to repeat. */
  readonly axis?: RepeatAxis;
  /** Whether light is to be made even. */
  readonly even?: boolean;
}

/** A photo to be mended: level, and in even light. */
export interface OpenedEven extends FoundRepeat {
  /** It, of its own size, and how uneven it was. */
  readonly evened: EvenPicture;
  /** What was read, but for its pixels. */
  readonly photo: Omit<Photo, 'raster'>;
  /** Whether it was level as it was. */
  readonly isAsRead: boolean;
  /** Along which axes it met itself. */
  readonly meets: PerAxis<boolean>;
  /** What of it is a copy. */
  readonly copies: PerAxis<AxisCopies>;
}

/**
 * Open a photo, level and in even light. All that is asked of its own pixels is asked here: they are then let go, or
 * become those of the even picture, for a large photo takes twelve bytes a pixel each time that it is held.
 *
 * @param path - Where it lies.
 * @param wish - How it is to be mended.
 * @returns The picture, or why the photo does not allow it.
 * @throws TextureError when a file does not allow it.
 */
export async function openEven(
  path: string,
  wish: OpenEvenOptions,
): Promise<Outcome<OpenedEven, MeasureRefusal>> {
  // The axis is that of the repeat, not of the courses.
  const { axis = 'both', even = true, ...options } = wish;
  beginStep('reading', options);
  const { look: read } = await openPhoto(path, { perPixel });
  const { raster, ...photo } = read;
  const found = await findMeasurement(read, options);
  if (!found.ok && found.code !== 'not-measured') return hintKept(found);
  const { look, lattice, repeat } = layLevel(raster, found, options);

  beginStep('mending', options);
  const meets = findMeets(look, found);
  const copies = (found.ok ? found.value.copies : undefined) ?? findCopies(raster);
  const evened = evenPicture(look, {
    ...{ lattice, from: { x: 0, y: 0 }, factor: { x: 1, y: 1 }, even, inPlace: true },
    meets: keepsLight(meets, axis),
  });
  return {
    ok: true,
    value: { evened, photo, isAsRead: look === raster, lattice, repeat, meets, copies },
    warnings: found.ok ? found.warnings : [],
  };
}

// The photo level, at its own size. Where nothing is known of it, its courses say how it lies.
function layLevel(
  raster: Raster,
  found: Outcome<FoundMeasurement, MeasureRefusal>,
  { straighten = 'full' }: OpenEvenOptions,
): FoundRepeat & { readonly look: Raster } {
  if (found.ok) {
    const picture = openLevel(raster, { ...found.value.measurement, enough: 1 });
    return { look: picture.look, ...findRepeat(picture) };
  }
  const { look, lattice } = openLevel(raster, { ...findLie(raster, straighten), enough: 1 });
  return { look, ...repeatOf(lattice) };
}

// Asked once: evening changes no light along an axis on which the picture meets itself.
function findMeets(
  look: Raster,
  found: Outcome<FoundMeasurement, MeasureRefusal>,
): PerAxis<boolean> {
  const known = found.ok ? found.value.seams : undefined;
  const { x, y } = known ?? inspectSeams(look);
  return { x: x.seamless, y: y.seamless };
}

// Nor does it along one on which the picture is not to repeat.
function keepsLight({ x, y }: PerAxis<boolean>, axis: RepeatAxis): PerAxis<boolean> {
  return { x: x || axis === 'y', y: y || axis === 'x' };
}
