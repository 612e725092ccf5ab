import { bonds } from '../../catalogue/bonds/index.js';
import { median } from '../../numeric/median.js';
import type { Raster } from '../../raster/raster.js';
import type { Random } from './create-random.js';
import { findPhase } from './find-phase.js';
import { layPattern, type PatternBrick } from './lay-pattern.js';
import { layWall } from './lay-wall.js';
import { type BondedSource, type Brick, listBricks } from './list-bricks.js';
import { placeBeds } from './place-beds.js';
import { seePerpends } from './see-perpends.js';
import { seeMortar } from '../mend/see-mortar.js';

/** A photo whose bond is known, its courses level. */
export interface BondedPhoto {
  /** In linear light; where it meets itself, gone on with past its end by a brick or more. */
  readonly raster: Raster;
  /** Where a brick begins that is a copy of the first; its size where it does not meet itself. */
  readonly end: { readonly x: number; readonly y: number };
  /** Bed joint to bed joint. */
  readonly course: number;
  /** Where one bed joint lies. */
  readonly offset: number;
  /** Bond repeat along the course. */
  readonly repeat: number;
}

/** A tile of whole bricks that is wanted. */
export interface BondedWish {
  /** The bond's catalogue id. */
  readonly bond: string;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Bond repeats in it. */
  readonly repeats: { readonly x: number; readonly y: number };
}

/** A tile laid brick by brick. */
export interface LaidTile {
  /** What repeats. */
  readonly raster: Raster;
  /** Whole bricks of the photos it was laid of. */
  readonly bricks: number;
}

// Perpends must show this much more upright mortar than anywhere, or nobody knows where they are.
const leastClear = 2;
// Fewer whole bricks in all, or of a face, would be seen to come again.
const leastBricks = 4;
const leastOfFace = 1;
// A brick with so much of a joint down its middle is perhaps two.
const mostSplit = 0.6;
// And one whose perpends show less than this share of what is usual is perhaps part of one.
const leastEnds = 0.35;

/**
 * Lay a tile brick by brick, by a bond.
 *
 * @param photos - Of one bond and one scale.
 * @param wish - The tile.
 * @param random - Decides.
 * @returns The tile, or null where the photos show too few whole bricks or not clearly enough where
 * they begin.
 */
export function extendBonded(
  photos: readonly BondedPhoto[],
  wish: BondedWish,
  random: Random,
): LaidTile | null {
  const bond = bonds.find(({ id }) => id === wish.bond);
  if (bond === undefined) return null;
  const pattern = layPattern(bond);
  const seen = photos.map((photo, source) => seeBond(photo, source, pattern));
  const sources = seen.filter((one) => one.phase.clear >= leastClear);
  if (sources.length === 0) return null;
  const joint = sources.reduce((sum, { mortar }) => sum + mortar.joint, 0) / sources.length;
  const all = sources.flatMap((source) => listBricks(source, joint));
  const bricks = keepWhole(all, pattern);
  if (bricks === null) return null;
  const raster = layWall(
    {
      ...wish,
      rasters: photos.map((photo) => photo.raster),
      bricks,
      pattern: sources[0]!.phase.pattern,
      beds: sources.map(({ beds }) => beds),
      joint,
    },
    random,
  );
  return { raster, bricks: bricks.length };
}

function seeBond(
  { raster, end, repeat, ...courses }: BondedPhoto,
  source: number,
  pattern: readonly (readonly PatternBrick[])[],
): BondedSource {
  const mortar = seeMortar(raster, courses);
  const beds = placeBeds(mortar, courses);
  const perpends = seePerpends(mortar, beds);
  const phase = findPhase(perpends, pattern, repeat);
  return { source, raster, mortar, beds, perpends, phase, repeat, end };
}

// Without those that seem to be two, or to begin or end where no joint shows, where enough are left.
function keepWhole(
  bricks: readonly Brick[],
  pattern: readonly (readonly PatternBrick[])[],
): readonly Brick[] | null {
  const faces = new Set(pattern.flat().map(({ face }) => face));
  const kept: Brick[] = [];
  for (const face of faces) {
    const own = bricks.filter((brick) => brick.face === face);
    if (own.length < leastOfFace) return null;
    const usual = median(Float64Array.from(own, ({ ends }) => ends));
    const whole = own.filter(({ split, ends }) => split <= mostSplit && ends >= leastEnds * usual);
    kept.push(...(whole.length >= Math.max(leastOfFace, own.length / 3) ? whole : own));
  }
  return kept.length < leastBricks ? null : kept;
}
