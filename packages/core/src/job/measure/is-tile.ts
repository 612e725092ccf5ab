import type { OpenedPhoto } from '../../read/open-photo.js';
import type { Photo } from '../../read/photo.js';
import type { Raster } from '../../raster/raster.js';
import { holdsWhole } from '../../seam/mend/holds-whole.js';
import { seamsOf } from '../../seam/inspect/inspect-seams.js';
import { matchRepeat } from '../../seam/mend/match-repeat.js';
import type { PerAxis } from '../../surface/measurement.js';
import { evenPicture } from '../mend/even-picture.js';
import { findFew } from '../inspect/find-few.js';
import { type FoundRepeat, repeatOf } from './find-repeat.js';
import type { WithCopies } from './measure-reduced.js';

/** A photo that was measured. */
export interface MeasuredPicture {
  /** As it was looked at, perhaps made smaller. */
  readonly photo: Photo;
  /** In pixels of the whole photo. */
  readonly found: WithCopies;
}

/**
 * Tell whether all of a photo is a tile as it is, so that a part can be filled with it and nobody need look
 * at it again: the answers that a fill would come to, all of them asked before.
 *
 * @param opened - The photo.
 * @param measured - What is known of it, and whether it shows no courses, which is known of all that are level.
 * @returns Whether it is level, without hard shadow, meets itself both ways at whole bricks, and is no copy.
 * @throws TextureError when not all of it can be decoded.
 */
export async function isTile(
  opened: OpenedPhoto,
  measured: MeasuredPicture & { readonly plain: boolean },
): Promise<boolean> {
  const { photo, found, plain } = measured;
  const { measurement, copies } = found;
  const { rectification, lattice } = measurement;
  // Courses that it shows, and that nobody found when it was measured, would be found again by every fill.
  if (rectification !== null || (lattice === null && !plain)) return false;
  const folds = [copies.x, copies.y].flatMap(({ period, mirror }) => [period, mirror]);
  if (folds.some((fold) => fold !== null)) return false;
  const seams = found.seams ?? seamsOf(photo.raster);
  if (!meetsItself(seams)) return false;
  const { raster } = photo.step === 1 ? photo : await opened.whole();
  const few = findFew(seams, { raster, lattice });
  if (few.x || few.y) return false;
  const repeat = repeatOf(lattice);
  return isWhole(raster, repeat) && isClear(raster, repeat);
}

function meetsItself({ x, y, warnings }: ReturnType<typeof seamsOf>): boolean {
  return x.seamless && y.seamless && warnings.length === 0;
}

function isWhole(raster: Raster, { repeat }: FoundRepeat): boolean {
  const match = matchRepeat(raster, repeat);
  return (['x', 'y'] as const).every((axis) => {
    const { repeat: found, refutesLength } = match[axis];
    const length = axis === 'x' ? raster.width : raster.height;
    return !refutesLength && (found === null || holdsWhole(length, found));
  });
}

// Along an axis on which a picture meets itself light does not drift, so what is left to find is shadow.
function isClear(raster: Raster, { lattice }: FoundRepeat): boolean {
  const both = (value: number): PerAxis<number> => ({ x: value, y: value });
  const meets = { x: true, y: true };
  const evened = evenPicture(raster, {
    lattice,
    from: both(0),
    factor: both(1),
    meets,
    even: true,
  });
  return evened.raster === raster && evened.warnings.length === 0;
}
