import type { Raster } from '../../raster/raster.js';
import { holdsWhole } from '../../seam/mend/holds-whole.js';
import type { Seam } from '../../seam/inspect/inspected-seam.js';
import { showsTwice } from '../../seam/inspect/shows-twice.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

/** A picture whose ends were inspected. */
export interface SeenSurface {
  /** Its pixels. */
  readonly raster: Raster;
  /** Where its joints lie, or null where nobody knows. */
  readonly lattice: Lattice | null;
  /** How large it is in the pixels that joints are counted in; as `raster` is, unless told. */
  readonly size?: Size<number>;
}

const leastHeld = 2;

/**
 * Find axes along which a picture meets itself and yet shows less than two courses or bricks, or of
 * whatever comes again in it: nothing inside tells how those go on. Where a course is known, whole ones do.
 *
 * @param seams - How its ends meet.
 * @param surface - The same picture.
 * @returns True along such an axis.
 */
export function findFew(seams: PerAxis<Seam>, surface: SeenSurface): PerAxis<boolean> {
  return {
    x: seams.x.seamless && !tellsEnough(surface, 'x'),
    y: seams.y.seamless && !tellsEnough(surface, 'y'),
  };
}

function tellsEnough({ raster, lattice, size = raster }: SeenSurface, axis: 'x' | 'y'): boolean {
  const unit = lattice === null ? null : lattice.axis === axis ? lattice.course : lattice.brick;
  if (unit === null) return showsTwice(raster, axis);
  const length = axis === 'x' ? size.width : size.height;
  return length / unit >= leastHeld || holdsWhole(length, unit);
}
