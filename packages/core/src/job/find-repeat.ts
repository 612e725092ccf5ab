import { toLattice } from '../measure/to-lattice.js';
import type { Lattice, PerAxis } from '../surface/measurement.js';
import { findEitherWay } from './find-either-way.js';
import { latticeFromLook } from './from-look.js';
import type { LevelPicture } from './open-level.js';

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
 * @returns The repeat, and the joints it goes by.
 */
export function findRepeat(picture: LevelPicture): FoundRepeat {
  return repeatOf(picture.lattice ?? look(picture));
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

function look({ look: raster, lookFactor: factor }: LevelPicture): Lattice | null {
  const found = findEitherWay(raster, 'none');
  return found && latticeFromLook(toLattice(found), { x: 0, y: 0, factor });
}
