import type { CourseReference } from '../../catalogue/course-reference.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import type { Warning } from '../../errors/warning.js';
import type { Straighten } from '../../measure/slant/judge-stand.js';
import type { Raster } from '../../raster/raster.js';
import { type ExtendMethod, extendTile } from '../../seam/extend/extend-tile.js';
import { refuseSmall } from '../../seam/extend/refuse-small.js';
import { inspectSeams, type Seam } from '../../seam/inspect/inspect-seams.js';
import type { CourseAxis, PerAxis } from '../../surface/measurement.js';
import { judgeSeams } from '../inspect/judge-seams.js';
import { beginStep, type JobOptions } from '../job-options.js';
import type { MeasureRefusal } from '../measure/find-measurement.js';
import { type KnownSource, type OpenedSource, openSource } from '../open/open-source.js';
import { judgePrint } from '../surface/judge-print.js';
import { checkExtendSize, type ExtendSizeOptions, type ExtendWish } from './extend-wish.js';
import {
  type ExtensionOptions,
  type ExtensionPlan,
  planExtension,
  type PlanRefusal,
} from './plan-extension.js';
import { type AgreedSource, sameWork, type WorkRefusal } from './same-work.js';
import { inTaken, type TakenSource, takeSource } from './take-source.js';
import type { ReferenceOptions } from '../measure/reference-options.js';

/** How photos become a larger tile. */
export interface LayExtensionOptions
  extends ExtendSizeOptions, Pick<ReferenceOptions, 'references'>, JobOptions {
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

/** Why photos make no larger tile. */
export type ExtendRefusal =
  MeasureRefusal | PlanRefusal | WorkRefusal | 'scale-doubtful' | 'too-small';

/** What photos read so far come to. */
interface Agreed {
  /** The tile. */
  readonly plan: ExtensionPlan;
  /** The photo that says how fine it is. */
  readonly first: KnownSource;
  /** All of them. */
  readonly sources: readonly AgreedSource[];
}

interface Gathered extends Agreed {
  /** Each at the tile's resolution. */
  readonly taken: readonly TakenSource[];
  /** The first as its file tells of it. */
  readonly photo: OpenedSource['photo'];
}

/** A tile larger than its photos, and what it is of. */
export interface LaidExtension extends Gathered {
  /** What repeats. Its top edge lies in a bed joint, where it has any. */
  readonly tile: Raster;
  /** How it was made. */
  readonly method: ExtendMethod;
  /** Whole bricks that it is laid of, or null. */
  readonly bricks: number | null;
  /** How it meets itself. */
  readonly seams: PerAxis<Seam>;
}

// What is worked on takes memory photo by photo.
const mostPhotos = 32;
const mostSeed = 2 ** 32 - 1;

/**
 * Refuse what makes no sense, before anything is read.
 *
 * @param paths - The photos.
 * @param options - As the caller gave them.
 * @returns How large the tile is to be.
 * @throws RangeError when an option, or two together, make no sense.
 */
export function checkExtend(paths: readonly string[], options: LayExtensionOptions): ExtendWish {
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

/**
 * Read photos, and lay a tile larger than they are of what they show.
 *
 * @param paths - Where they lie.
 * @param wish - How large.
 * @param options - What is known of them, and how true the tile must be.
 * @returns The tile, or why the photos do not allow it.
 * @throws TextureError when a file does not allow it.
 */
export async function layExtension(
  paths: readonly string[],
  wish: ExtendWish,
  options: LayExtensionOptions & ExtensionOptions,
): Promise<Outcome<LaidExtension, ExtendRefusal>> {
  const { seed = 1 } = options;
  const gathered = await gather(paths, wish, options);
  if (!gathered.ok) return gathered;
  const { plan, sources, taken, first } = gathered.value;
  beginStep('extending', options);
  const made = extendTile(
    taken.map((one, i) => ({ ...one, lattice: inTaken(sources[i]?.lattice ?? null, one) })),
    { ...plan, seed },
  );
  if (!made.ok) return made;
  const { raster: tile, ...how } = made.value;
  const seams = inspectSeams(tile);
  return {
    ok: true,
    value: { ...gathered.value, tile, ...how, seams },
    warnings: [
      ...gathered.warnings,
      ...judgeFineness(first, wish),
      ...judgeMethod(first, how.method),
      ...judgeSeams({ raster: tile, seams }, 'both'),
    ],
  };
}

// One photo after the other: at the tile's resolution it takes much less memory.
async function gather(
  paths: readonly string[],
  wish: ExtendWish,
  options: LayExtensionOptions & ExtensionOptions,
): Promise<Outcome<Gathered, ExtendRefusal>> {
  const known: KnownSource[] = [];
  const photos: OpenedSource['photo'][] = [];
  const taken: TakenSource[] = [];
  const warnings: Warning[] = [];
  for (const path of paths) {
    const one = await gatherOne(path, { before: known, wish, options, photos: paths.length });
    if (!one.ok) return one;
    known.push(one.value.known);
    photos.push(one.value.photo);
    taken.push(one.value.source);
    warnings.push(...named(one.warnings, path, paths));
  }
  const [photo] = photos;
  const agreed = agree(known, wish, options);
  if (!agreed.ok) return agreed;
  if (photo === undefined) throw outOfRange('a photo', 'paths', 0);
  return {
    ok: true,
    value: { ...agreed.value, taken, photo },
    warnings: [...warnings, ...agreed.warnings],
  };
}

interface Gathering {
  readonly before: readonly KnownSource[];
  readonly wish: ExtendWish;
  readonly options: LayExtensionOptions & ExtensionOptions;
  readonly photos: number;
}

interface GatheredOne extends Pick<OpenedSource, 'known' | 'photo'> {
  readonly source: TakenSource;
}

// Apart, so that nothing of a photo but what is given back outlives it.
async function gatherOne(
  path: string,
  { before, wish, options, photos }: Gathering,
): Promise<Outcome<GatheredOne, ExtendRefusal>> {
  const { even = true } = options;
  const measured = photos > 1 || wish.kind !== 'times' || wish.print !== null;
  beginStep('reading', options);
  const opened = await openSource(path, { ...options, measured });
  if (!opened.ok) return opened;
  const { known, photo } = opened.value;
  const agreed = agree([...before, known], wish, options);
  if (!agreed.ok) return agreed;
  beginStep('scaling', options);
  const { plan } = agreed.value;
  const source = takeSource(opened.value, { plan, even, photos });
  const small = refuseSmall(source.raster);
  if (small !== null) return { ...small, message: `${showPath(path)}: ${small.message}` };
  return {
    ok: true,
    value: { known, photo, source },
    warnings: [...opened.warnings, ...source.warnings],
  };
}

// What the photos read so far come to.
function agree(
  known: readonly KnownSource[],
  wish: ExtendWish,
  options: ExtensionOptions,
): Outcome<Agreed, PlanRefusal | WorkRefusal> {
  const same = sameWork(known);
  if (!same.ok) return same;
  const [first] = same.value;
  if (first === undefined) throw outOfRange('a photo', 'paths', 0);
  const planned = planExtension(first, wish, options);
  if (!planned.ok) return { ...planned, message: `${showPath(first.path)}: ${planned.message}` };
  return {
    ok: true,
    value: { plan: planned.value, first, sources: same.value },
    warnings: same.warnings,
  };
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

function judgeFineness({ measurement }: KnownSource, { print }: ExtendWish): readonly Warning[] {
  return measurement === null || print === null ? [] : judgePrint(measurement, print).warnings;
}

function judgeMethod({ lattice }: KnownSource, method: ExtendMethod): readonly Warning[] {
  if (lattice === null || method === 'bricks') return [];
  const message =
    'too few whole bricks show, or their joints too faintly, so it is made of runs of courses: a brick or a board may be cut here and there';
  return [{ code: 'cut-bricks', message }];
}
