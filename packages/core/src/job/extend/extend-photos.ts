import type { CourseReference } from '../../catalogue/course-reference.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import type { Straighten } from '../../measure/slant/judge-stand.js';
import { toRows } from '../../raster/row-source.js';
import { type ExtendMethod, extendTile } from '../../seam/extend/extend-tile.js';
import { refuseSmall } from '../../seam/extend/refuse-small.js';
import { inspectSeams, type Seam } from '../../seam/inspect/inspect-seams.js';
import type { CourseAxis, PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { mmPerInch } from '../../units/units.js';
import { checkOutput } from '../../write/check-output.js';
import { writePicture } from '../../write/write-picture.js';
import type { LightReport } from '../mend/even-picture.js';
import { checkExtendSize, type ExtendSizeOptions, type ExtendWish } from './extend-wish.js';
import { judgePrint } from '../surface/judge-print.js';
import type { MeasureRefusal } from '../measure/find-measurement.js';
import { beginStep, type JobOptions } from '../job-options.js';
import { judgeSeams } from '../inspect/judge-seams.js';
import { type KnownSource, openSource } from '../open/open-source.js';
import { type ExtensionPlan, planExtension, type PlanRefusal } from './plan-extension.js';
import { reportScale, type ScaleReport } from '../measure/report-scale.js';
import { reportSeam } from '../inspect/report-seam.js';
import { type AgreedSource, sameWork, type WorkRefusal } from './same-work.js';
import { inTaken, type TakenSource, takeSource } from './take-source.js';
import { toFigures } from '../to-figures.js';

/** What {@link extendPhotos} needs to know. */
export interface ExtendPhotosOptions extends ExtendSizeOptions, JobOptions {
  /** The file to write. */
  readonly output: string;
  /** Another gives another tile; a whole number from 0 to 4294967295, 1 unless told. */
  readonly seed?: number;
  /** What the courses of all photos are; else each is measured by what was kept beside it. */
  readonly course?: CourseReference;
  /** Which way courses are counted; with `course`. */
  readonly axis?: CourseAxis;
  /** How far photos may be straightened; `full` unless told. */
  readonly straighten?: Straighten;
  /** Whether slow changes of light and colour are taken out; true unless told. */
  readonly even?: boolean;
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

/** Why photos make no larger tile. */
export type ExtendRefusal =
  MeasureRefusal | PlanRefusal | WorkRefusal | 'scale-doubtful' | 'too-small';

// What is worked on takes memory photo by photo.
const mostPhotos = 32;
const mostSeed = 2 ** 32 - 1;

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
  const { output, seed = 1 } = options;
  const wish = checkOptions(paths, options);
  await checkOutput(output, { inputs: paths });
  const gathered = await gather(paths, wish, options);
  if (!gathered.ok) return gathered;
  const { plan, sources, taken } = gathered.value;
  const first = gathered.value.first;

  beginStep('extending', options);
  const made = extendTile(
    taken.map((one, i) => ({ ...one, lattice: inTaken(sources[i]?.lattice ?? null, one) })),
    { ...plan, seed },
  );
  if (!made.ok) return made;
  const { raster: tile, method, bricks } = made.value;
  const seams = inspectSeams(tile);

  beginStep('writing', options);
  const dpi = wish.kind === 'print' ? wish.dpi : null;
  await writePicture(output, toRows(tile, dpi), { inputs: paths });
  const { width, height } = tile;
  return {
    ok: true,
    value: {
      output,
      width,
      height,
      dpi,
      scale: wish.kind === 'print' ? reportScale(wish.scale) : null,
      ...reportPlan(plan, { dpi, first }),
      method,
      bricks,
      seed,
      photos: sources.map((source, i) => reportSource(source, taken[i]?.light ?? null)),
      x: reportSeam(seams.x),
      y: reportSeam(seams.y),
    },
    warnings: [
      ...gathered.warnings,
      ...judgeFineness(first, wish),
      ...judgeMethod(first, method),
      ...judgeSeams({ raster: tile, seams }, 'both'),
    ],
  };
}

interface Gathered extends Agreed {
  readonly taken: readonly TakenSource[];
}

// One photo after the other: at the tile's resolution it takes much less memory.
async function gather(
  paths: readonly string[],
  wish: ExtendWish,
  options: ExtendPhotosOptions,
): Promise<Outcome<Gathered, ExtendRefusal>> {
  const { even = true } = options;
  const known: KnownSource[] = [];
  const taken: TakenSource[] = [];
  const warnings: Warning[] = [];
  const measured = paths.length > 1 || wish.kind !== 'times';
  for (const path of paths) {
    beginStep('reading', options);
    const opened = await openSource(path, { ...options, measured });
    if (!opened.ok) return opened;
    known.push(opened.value.known);
    const agreed = agree(known, wish);
    if (!agreed.ok) return agreed;
    beginStep('scaling', options);
    const { plan } = agreed.value;
    const source = takeSource(opened.value, { plan, even, photos: paths.length });
    const small = refuseSmall(source.raster);
    if (small !== null) return { ...small, message: `${showPath(path)}: ${small.message}` };
    taken.push(source);
    warnings.push(...named([...opened.warnings, ...source.warnings], path, paths));
  }
  const agreed = agree(known, wish);
  if (!agreed.ok) return agreed;
  return {
    ok: true,
    value: { ...agreed.value, taken },
    warnings: [...warnings, ...agreed.warnings],
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

interface Agreed {
  readonly plan: ExtensionPlan;
  readonly first: KnownSource;
  readonly sources: readonly AgreedSource[];
}

// What the photos read so far come to.
function agree(
  known: readonly KnownSource[],
  wish: ExtendWish,
): Outcome<Agreed, PlanRefusal | WorkRefusal> {
  const same = sameWork(known);
  if (!same.ok) return same;
  const [first] = same.value;
  if (first === undefined) throw outOfRange('a photo', 'paths', 0);
  const planned = planExtension(first, wish);
  if (!planned.ok) return { ...planned, message: `${showPath(first.path)}: ${planned.message}` };
  return {
    ok: true,
    value: { plan: planned.value, first, sources: same.value },
    warnings: same.warnings,
  };
}

function checkOptions(paths: readonly string[], options: ExtendPhotosOptions): ExtendWish {
  const { seed = 1, course, axis } = options;
  if (!(paths.length >= 1 && paths.length <= mostPhotos)) {
    throw outOfRange(`1 to ${mostPhotos} photos`, 'paths', paths.length);
  }
  if (!(Number.isInteger(seed) && seed >= 0 && seed <= mostSeed)) {
    throw outOfRange(`a whole number from 0 to ${mostSeed}`, 'seed', seed);
  }
  if (axis !== undefined && course === undefined) {
    throw outOfRange('a course beside it', 'axis', axis);
  }
  return checkExtendSize(options);
}

// With one photo everybody knows which.
function named(
  warnings: readonly Warning[],
  path: string,
  { length }: readonly string[],
): readonly Warning[] {
  if (length === 1) return warnings;
  return warnings.map(({ code, message }) => ({
    code,
    message: `${showPath(path)}: ${message}`,
  }));
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

function judgeFineness({ measurement }: KnownSource, wish: ExtendWish): readonly Warning[] {
  return measurement === null || wish.kind !== 'print'
    ? []
    : judgePrint(measurement, wish).warnings;
}

function judgeMethod({ lattice }: KnownSource, method: ExtendMethod): readonly Warning[] {
  if (lattice === null || method === 'bricks') return [];
  const message =
    'too few whole bricks show, or their joints too faintly, so it is made of runs of courses: a brick or a board may be cut here and there';
  return [{ code: 'cut-bricks', message }];
}
