import { withLimits } from '../../read/held-limits.js';
import type { Outcome } from '../../errors/outcome.js';
import { toRows } from '../../raster/row-source.js';
import type { ExtendMethod } from '../../seam/extend/extend-tile.js';
import type { Seam } from '../../seam/inspect/inspect-seams.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { mmPerInch } from '../../units/units.js';
import { checkOutput } from '../../write/check-output.js';
import { writePicture } from '../../write/write-picture.js';
import { reportSeam } from '../inspect/report-seam.js';
import { beginStep } from '../job-options.js';
import { reportScale, type ScaleReport } from '../measure/report-scale.js';
import type { LightReport } from '../mend/even-picture.js';
import type { KnownSource } from '../open/open-source.js';
import { toFigures } from '../to-figures.js';
import {
  checkExtend,
  type LayExtensionOptions,
  type ExtendRefusal,
  layExtension,
} from './lay-extension.js';
import type { ExtensionPlan } from './plan-extension.js';
import type { AgreedSource } from './same-work.js';

/** What {@link extendPhotos} needs to know. */
export interface ExtendPhotosOptions extends LayExtensionOptions {
  /** The file to write. */
  readonly output: string;
}

/** A tile larger than the photos it is of, and how it came about. */
export interface ExtendedPhotos {
  /** The file written. */
  readonly output: string;
  /** Its columns. */
  readonly width: number;
  /** Its rows. */
  readonly height: number;
  /** What it is to be printed at, or null where no scale was given. */
  readonly dpi: number | null;
  /** Of the model, or null. */
  readonly scale: ScaleReport | null;
  /** Real millimetres a pixel, or null where nothing was measured. */
  readonly mmPerPx: number | null;
  /** What it shows of the real thing, or null. */
  readonly realSizeMm: Size<number> | null;
  /** What it measures on paper, or null where no scale was given. */
  readonly paperSizeMm: Size<number> | null;
  /** How much larger than asked each way, in per cent, so that it holds whole repeats of the bond. */
  readonly roundedPercent: PerAxis<number>;
  /** What it was made of: whole `bricks`, runs of `courses`, or `patches`. */
  readonly method: ExtendMethod;
  /** Courses in it, or null where there are none. */
  readonly courses: number | null;
  /** Whole bricks of the photos that it is laid of, or null where it is not. */
  readonly bricks: number | null;
  /** What chance began with. */
  readonly seed: number;
  /** The photos, first to last. */
  readonly photos: readonly ExtendedPhoto[];
  /** Laid side by side. */
  readonly x: Seam;
  /** Laid one above the other. */
  readonly y: Seam;
}

/** One of the photos. */
export interface ExtendedPhoto {
  /** Where it lies. */
  readonly path: string;
  /** Real millimetres a pixel, or null where it was not measured. */
  readonly mmPerPx: PerAxis<number> | null;
  /** Its bond, or null. */
  readonly bond: string | null;
  /** The photo that the bond is taken from, for this one's own could not be told; else null. */
  readonly bondFrom: string | null;
  /** How uneven its light was that was taken out, or null where it was left. */
  readonly light: LightReport | null;
}

/**
 * Make a tile larger than the photos it is made of: grow one, or join several of the same wall.
 *
 * @param paths - Where the photos lie, one or more. The first says how fine the tile is, where nobody
 * gave a scale, and what light and colour it has.
 * @param options - Where to write it, how large, and what is known of the photos.
 * @returns What was written, or why the photos do not allow it.
 * @throws RangeError when an option, or two together, make no sense.
 * @throws TextureError when a file does not allow it.
 */
export async function extendPhotos(
  paths: readonly string[],
  options: ExtendPhotosOptions,
): Promise<Outcome<ExtendedPhotos, ExtendRefusal>> {
  return withLimits(options, () => extendWithin(paths, options));
}

async function extendWithin(
  paths: readonly string[],
  options: ExtendPhotosOptions,
): Promise<Outcome<ExtendedPhotos, ExtendRefusal>> {
  const { output, seed = 1 } = options;
  const wish = checkExtend(paths, options);
  await checkOutput(output, { inputs: paths });
  const made = await layExtension(paths, wish, options);
  if (!made.ok) return made;
  const { tile, method, bricks, plan, sources, taken, first, seams } = made.value;

  beginStep('writing', options);
  const dpi = wish.print?.dpi ?? null;
  await writePicture(output, toRows(tile, dpi), { inputs: paths });
  const { width, height } = tile;
  return {
    ok: true,
    value: {
      output,
      width,
      height,
      dpi,
      scale: wish.print && reportScale(wish.print.scale),
      ...reportPlan(plan, { dpi, first }),
      method,
      bricks,
      seed,
      photos: sources.map((source, i) => reportSource(source, taken[i]?.light ?? null)),
      x: reportSeam(seams.x),
      y: reportSeam(seams.y),
    },
    warnings: made.warnings,
  };
}

function reportPlan(
  plan: ExtensionPlan,
  { dpi, first }: { readonly dpi: number | null; readonly first: KnownSource },
): Pick<ExtendedPhotos, 'mmPerPx' | 'realSizeMm' | 'paperSizeMm' | 'roundedPercent' | 'courses'> {
  const { mmPerPx, roundedPercent } = plan;
  return {
    mmPerPx: mmPerPx === null ? null : toFigures(mmPerPx, 6),
    realSizeMm: sizeOf(plan, mmPerPx),
    paperSizeMm: sizeOf(plan, dpi === null ? null : mmPerInch / dpi),
    roundedPercent: { x: toFigures(roundedPercent.x, 3), y: toFigures(roundedPercent.y, 3) },
    courses: countCourses(first, plan),
  };
}

function sizeOf({ width, height }: Size<number>, mmPerPx: number | null): Size<number> | null {
  if (mmPerPx === null) return null;
  return { width: toFigures(width * mmPerPx, 6), height: toFigures(height * mmPerPx, 6) };
}

function countCourses({ lattice }: KnownSource, plan: ExtensionPlan): number | null {
  if (lattice === null) return null;
  const { axis, course } = lattice;
  return Math.round((axis === 'x' ? plan.width : plan.height) / (course * plan.factor[axis]));
}

function reportSource(
  { path, measurement, lattice, bondFrom }: AgreedSource,
  light: LightReport | null,
): ExtendedPhoto {
  const mmPerPx = measurement && {
    x: toFigures(measurement.mmPerPx.x, 6),
    y: toFigures(measurement.mmPerPx.y, 6),
  };
  return { path, mmPerPx, bond: lattice?.bond ?? null, bondFrom, light };
}
