import type { OpenedPhoto } from '../../read/open-photo.js';
import type { Photo } from '../../read/read-photo.js';
import { linesToPrint, type ToPrintOptions } from '../../scale/to-print-resolution.js';
import type { Raster } from '../../raster/raster.js';
import type { Measurement, PerAxis } from '../../surface/measurement.js';
import { type LevelPicture, openLevel } from './open-level.js';

/** A photo that is to be printed, as far as it is known. */
export interface PictureToPrint {
  /** As it was measured, perhaps made smaller. */
  readonly photo: Photo;
  /** Of it. */
  readonly measurement: Measurement;
  /** Printed dots to a pixel. */
  readonly factor: PerAxis<number>;
}

// A repeat is matched to some tenths of a pixel of what is looked at, so it may be this share as fine as
// the print and the match is still good to half a dot.
const leastLook = 0.5;

/**
 * Open a photo as it is once level, for a print. Where it was level and measured in a smaller picture, its
 * repeat is matched in that, and all of it is held in linear light at no time.
 *
 * @param opened - The photo.
 * @param picture - What is known of it.
 * @returns What the later stages work on.
 * @throws TextureError when not all of the photo can be decoded.
 */
export async function openPicture(
  opened: OpenedPhoto,
  picture: PictureToPrint,
): Promise<LevelPicture> {
  const { photo, measurement, factor } = picture;
  const finest = Math.max(factor.x, factor.y);
  const { rectification, lattice } = measurement;
  const isFine = lattice?.repeat.x != null && leastLook * finest * photo.step <= 1;
  if (photo.step === 1 || rectification !== null || !isFine) {
    // What is mended is a little finer than the print, and nothing finer need be looked at.
    const enough = Math.min(1, 1.6 * finest);
    const { raster } = photo.step === 1 ? photo : await opened.whole();
    return openLevel(raster, { ...measurement, enough });
  }
  const { width, height, raster: look } = photo;
  const lines = await opened.lines();
  return {
    width,
    height,
    lattice,
    look,
    lookFactor: { x: look.width / width, y: look.height / height },
    resample: (part: ToPrintOptions): Raster => linesToPrint(lines, part),
  };
}
