import { toLattice } from '../../measure/to-lattice.js';
import { shrinkRaster } from '../../raster/shrink-raster.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';
import { findEitherWay } from './find-either-way.js';
import { latticeFromLook } from './from-look.js';
import type { LevelPicture } from '../open/open-level.js';

/** After how many pixels of the level picture it may be cut. */
export interface FoundRepeat {
  /** Where the joints lie, or null where there are no courses. */
  readonly lattice: Lattice | null;
  /** One repeat of the bond, or null where nothing repeats that must not be cut. */
  readonly repeat: PerAxis<number | null>;
}

/**
 * Find after how many pixels a picture may be cut without cutting a brick.
 *
 * @param picture - Level. Where it does not know its joints, they are looked for.
 * @param finest - Printed dots to a pixel of it, where it is to be printed; as fine as it is unless told.
 * @returns The repeat, and the joints it goes by.
 */
export function findRepeat(picture: LevelPicture, finest = 1): FoundRepeat {
  const { lattice, plain = false } = picture;
  return repeatOf(lattice ?? (plain ? null : look(picture, finest)));
}

/**
 * Say after how many pixels a picture may be cut by joints that are known.
 *
 * @param joints - Where they lie, or null where the picture has none.
 * @returns The repeat, and the joints it goes by.
 */
export function repeatOf(joints: Lattice | null): FoundRepeat {
  if (joints === null) return { lattice: null, repeat: { x: null, y: null } };
  const { axis, course, repeat } = joints;
  // Where the bond could not be told, two courses: stretcher, English and Flemish bond, slates and
  // tiles all come round after two.
  return { lattice: joints, repeat: { ...repeat, [axis]: repeat[axis] ?? 2 * course } };
}

// Smaller pictures take no time.
const leastSide = 300;
// Where half of what is looked at is still as fine as the print and shows no courses, there are none to be
// cut: rust, gravel, render. That is a third of the time.
const coarse = 2;

function look({ look: raster, lookFactor: factor }: LevelPicture, finest: number): Lattice | null {
  const isFine = coarse * finest <= Math.min(factor.x, factor.y);
  const isLarge = Math.min(raster.width, raster.height) >= coarse * leastSide;
  if (isFine && isLarge && findEitherWay(shrinkRaster(raster, coarse), 'none') === null)
    return null;
  const found = findEitherWay(raster, 'none');
  return found && latticeFromLook(toLattice(found), { x: 0, y: 0, factor });
}
