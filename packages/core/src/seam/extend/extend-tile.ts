import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Raster } from '../../raster/raster.js';
import { transposeRaster } from '../../raster/transpose-raster.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';
import { createRandom } from './create-random.js';
import { extendBonded } from './extend-bonded.js';
import { extendSplit } from './extend-split.js';
import { goOn } from './go-on.js';
import { matchLight } from './match-light.js';
import { mostAcross, quiltTile } from './quilt-tile.js';
import { firstBed } from './place-beds.js';
import { leastSide, refuseSmall } from './refuse-small.js';
import type { Courses } from '../mend/see-mortar.js';
import { openSource } from './take-patch.js';

/** A photo that a larger tile is made of. */
export interface ExtendSource {
  /** Level, evenly lit, in linear light; all sources at one scale. */
  readonly raster: Raster;
  /** Where its joints lie, in its pixels, or null where it has none. */
  readonly lattice: Lattice | null;
  /** Along which axes it goes on with its other side; none unless told. */
  readonly meets?: PerAxis<boolean>;
}

/** The tile that is wanted. */
export interface ExtendOptions {
  /** Columns, whole. */
  readonly width: number;
  /** Rows, whole. */
  readonly height: number;
  /**
   * Bond repeats in it along each axis, whole; null where nothing repeats. Courses, where they repeat
   * across them only.
   */
  readonly repeats: PerAxis<number | null>;
  /** Another gives another tile; a whole number, 1 unless told. */
  readonly seed?: number;
}

/** How a tile was made: brick by brick, of runs of a course, or of patches. */
export type ExtendMethod = 'bricks' | 'courses' | 'patches';

/** A tile larger than its photos. */
export interface ExtendedTile {
  /** What repeats. Its top edge lies in a bed joint, where it has any. */
  readonly raster: Raster;
  /** How it was made. */
  readonly method: ExtendMethod;
  /** Whole bricks that the photos gave, where it was laid of bricks, or null. */
  readonly bricks: number | null;
}

const leastPatch = 8;
// A patch over the photo's smaller side.
const patchShare = 0.36;
// A run of a course, in courses, and its share of the photo's width: where bricks are not known they are
// perhaps boards, which no run is too long for.
const runLength = 20;
const runShare = 0.5;
const boardShare = 0.8;

/**
 * Make a tile larger than the photos it is made of, without a repeat that shows and without a seam: of
 * whole bricks where the bond is known, else of runs of courses, else of patches.
 *
 * @param sources - One photo or more. The first gives light and colour, and says where courses lie.
 * @param options - How large it is to be, and what chance begins with.
 * @returns The tile, or that the photos are too small to make it of.
 * @throws RangeError when a number makes no sense.
 */
export function extendTile(
  sources: readonly ExtendSource[],
  options: ExtendOptions,
): Outcome<ExtendedTile, 'too-small'> {
  const [first] = sources;
  checkOptions(sources, options);
  if (first === undefined) throw outOfRange('one photo or more', 'sources', 0);
  for (const { raster } of sources) {
    const small = refuseSmall(raster);
    if (small !== null) return small;
  }
  const upright = first.lattice?.axis === 'x';
  const lain = upright ? sources.map(lieDown) : sources;
  const { width, height, repeats, seed = 1 } = options;
  const wish = upright
    ? { width: height, height: width, repeats: { x: repeats.y, y: repeats.x }, seed }
    : { width, height, repeats, seed };
  const made = extendLevel(lain.map(toLit(lain)), wish);
  const value = upright ? { ...made, raster: transposeRaster(made.raster) } : made;
  return { ok: true, value, warnings: [] };
}

function checkOptions(sources: readonly ExtendSource[], options: ExtendOptions): void {
  const { width, height, repeats, seed = 1 } = options;
  for (const [name, side] of [['width', width] as const, ['height', height] as const]) {
    if (!(Number.isInteger(side) && side >= leastSide)) {
      throw outOfRange(`a whole number of ${leastSide} or more`, name, side);
    }
  }
  for (const count of [repeats.x, repeats.y]) {
    if (count !== null && !(Number.isInteger(count) && count >= 1)) {
      throw outOfRange('whole repeats, 1 or more', 'repeats', count);
    }
  }
  if (!Number.isSafeInteger(seed)) throw outOfRange('a whole number', 'seed', seed);
  const ways = sources.map(({ lattice }) => (lattice === null ? 'none' : `along ${lattice.axis}`));
  if (new Set(ways).size > 1) {
    throw outOfRange('courses that lie one way in every photo', 'sources', ways.join(', '));
  }
}

function lieDown({ raster, lattice, meets }: ExtendSource): ExtendSource {
  return {
    raster: transposeRaster(raster),
    lattice: lattice && {
      ...lattice,
      axis: 'y',
      repeat: { x: lattice.repeat.y, y: lattice.repeat.x },
    },
    ...(meets && { meets: { x: meets.y, y: meets.x } }),
  };
}

function coursesOf({ lattice }: ExtendSource): Courses | null {
  return lattice && { course: lattice.course, offset: lattice.courseOffset };
}

// The light of all is that of the first.
function toLit(sources: readonly ExtendSource[]): (source: ExtendSource) => ExtendSource {
  return (source) => {
    const [model = source] = sources;
    if (source === model) return source;
    const raster = matchLight(source.raster, { raster: model.raster, courses: coursesOf(model) });
    return { ...source, raster };
  };
}

function extendLevel(
  sources: readonly ExtendSource[],
  wish: Required<ExtendOptions>,
): ExtendedTile {
  const { width, height, repeats, seed } = wish;
  const bond = sources[0]?.lattice?.bond ?? null;
  const random = createRandom(seed);
  if (bond !== null && repeats.x !== null && repeats.y !== null) {
    const counted = { x: repeats.x, y: repeats.y };
    const photos = sources.flatMap(toBonded);
    const laid = extendBonded(photos, { bond, width, height, repeats: counted }, random);
    if (laid !== null) return { ...laid, method: 'bricks' };
  }
  return quilt(sources, wish, random);
}

function toBonded(source: ExtendSource): Parameters<typeof extendBonded>[0][number][] {
  const { raster, lattice, meets = { x: false, y: false } } = source;
  const repeat = lattice?.repeat.x ?? null;
  if (lattice === null || repeat === null) return [];
  const { course, courseOffset: offset } = lattice;
  const more = {
    x: meets.x ? Math.min(raster.width, Math.ceil(repeat + course)) : 0,
    y: meets.y ? Math.min(raster.height, Math.ceil(2 * course)) : 0,
  };
  // Where it meets itself, the first whole course comes again one picture further down.
  const again = firstBed({ course, offset }) - course / 2;
  const end = { x: raster.width, y: raster.height + (meets.y ? again : 0) };
  return [{ raster: goOn(raster, more), end, course, offset, repeat }];
}

function quilt(
  sources: readonly ExtendSource[],
  { width, height, repeats }: Required<ExtendOptions>,
  random: () => number,
): ExtendedTile {
  const lattice = sources[0]?.lattice ?? null;
  const smaller = Math.min(...sources.map(({ raster }) => Math.min(raster.width, raster.height)));
  const narrower = Math.min(...sources.map(({ raster }) => raster.width));
  const opened = sources.map((source) => openSource(source.raster, coursesOf(source)));
  const followed = opened.every(({ courses }) => courses !== null && courses.beds.count >= 2);
  if (lattice !== null && repeats.y !== null && followed) {
    const { course, brick } = lattice;
    const { y: repeat } = lattice.repeat;
    const perRepeat = repeats.x === null || repeat === null ? 1 : Math.round(repeat / course);
    const run =
      brick === null
        ? Math.min(boardShare * narrower - 2 * mostAcross(course), runLength * course)
        : Math.min(runShare * narrower, 2 * brick);
    const joint = Math.max(...opened.map(({ courses }) => courses?.mortar.joint ?? 0));
    const courses = repeats.y * perRepeat;
    const laid = extendSplit(
      sources.map(({ raster }) => raster),
      opened,
      { width, height, courses, random },
    );
    if (laid !== null) return { ...laid, method: 'bricks' };
    const patch = { width: Math.max(leastPatch, run), height: course };
    return {
      raster: quiltTile(opened, { width, height, courses, patch, joint }, random),
      method: 'courses',
      bricks: null,
    };
  }
  const side = Math.max(leastPatch, Math.min(patchShare * smaller, width / 2, height / 2));
  const free = sources.map(({ raster }) => openSource(raster, null));
  const patch = { width: side, height: side };
  return {
    raster: quiltTile(free, { width, height, courses: null, patch, joint: 0 }, random),
    method: 'patches',
    bricks: null,
  };
}
