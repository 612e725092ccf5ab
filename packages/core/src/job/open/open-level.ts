import { largestWindow } from '../../rectify/largest-window.js';
import { straightenRaster } from '../../rectify/straighten-raster.js';
import type { Raster } from '../../raster/raster.js';
import { toPrintResolution, type ToPrintOptions } from '../../scale/to-print-resolution.js';
import type { Lattice, Measurement, PerAxis, Rectification } from '../../surface/measurement.js';

/**
 * A photo as it is once level. Its pixels are those of the level picture, from its own top left
 * corner.
 */
export interface LevelPicture {
  /** Columns, seldom whole where the photo was straightened. */
  readonly width: number;
  /** Rows, likewise. */
  readonly height: number;
  /** Where the joints lie, or null where nobody knows. */
  readonly lattice: Lattice | null;
  /** Whether it is known to show no joints; not unless told. */
  readonly plain?: boolean;
  /** What to look at, made when it is asked for. */
  readonly look: Raster;
  /** Pixels of `look` per level pixel. */
  readonly lookFactor: PerAxis<number>;
  /** Bring a part to another resolution, in one resampling of the photo. */
  readonly resample: (options: ToPrintOptions) => Raster;
}

/** What {@link openLevel} goes by. */
export interface LevelOptions extends Pick<Measurement, 'rectification' | 'lattice'> {
  /** Pixels of `look` per level pixel that are enough; at most 1, and never more are taken. */
  readonly enough: number;
}

// Fewer pixels to a course show no joints.
const leastCourse = 10;
// More pixels than this tell no more of where a picture repeats.
const mostPixels = 6e6;

/**
 * Open a photo as it is once level: as it is where it was level; else straightened and cropped to
 * the largest upright rectangle that it shows all of.
 *
 * @param raster - The photo.
 * @param options - How it lies, and how fine it must be looked at.
 * @returns What the later stages work on.
 */
export function openLevel(raster: Raster, options: LevelOptions): LevelPicture {
  const { rectification, lattice, enough } = options;
  if (rectification === null) return asItIs(raster, lattice);
  const whole = largestWindow(rectification, raster);
  const { x, y, width, height } = whole;
  const least = lattice === null ? 0 : leastCourse / lattice.course;
  const most = Math.sqrt(mostPixels / (width * height));
  const lookFactor = enough === 1 ? 1 : Math.min(1, Math.max(least, Math.min(enough, most)));
  const factor = { x: lookFactor, y: lookFactor };
  let look: Raster | undefined;
  return {
    width,
    height,
    lattice: lattice && moveLattice(lattice, { x: -x, y: -y }),
    get look() {
      return (look ??= straightenRaster(raster, rectification, { window: whole, factor }));
    },
    lookFactor: factor,
    resample: (part) => straightenPart(raster, rectification, whole, part),
  };
}

function asItIs(raster: Raster, lattice: Lattice | null): LevelPicture {
  const { width, height } = raster;
  const resample = (part: ToPrintOptions): Raster => toPrintResolution(raster, part);
  return { width, height, lattice, look: raster, lookFactor: { x: 1, y: 1 }, resample };
}

function straightenPart(
  raster: Raster,
  rectification: Rectification,
  whole: PerAxis<number> & { readonly width: number; readonly height: number },
  { factor, window = { ...whole, x: 0, y: 0 } }: ToPrintOptions,
): Raster {
  const moved = { ...window, x: whole.x + window.x, y: whole.y + window.y };
  return straightenRaster(raster, rectification, { window: moved, factor });
}

function moveLattice(lattice: Lattice, by: PerAxis<number>): Lattice {
  const { axis, course, courseOffset } = lattice;
  const moved = courseOffset + by[axis];
  return { ...lattice, courseOffset: moved - Math.floor(moved / course) * course };
}
