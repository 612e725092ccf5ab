import type { PerAxis } from '../../surface/measurement.js';
import type { NoiseGround } from './octaves.js';
import type { Ledge, WallPoint, WeatherSite } from './site.js';
import { type Facing, settleStrengths, weatherNames, type WeatherWish } from './strengths.js';
import { outOfRange } from '../../errors/out-of-range.js';

/** All that is known of the wall but what a page shows of it. */
export interface GivenSite
  extends Omit<WeatherSite, 'ground' | 'run'>, Pick<NoiseGround, 'seed' | 'period'> {}

/**
 * Bring a place to the nearest dot.
 *
 * @param place - In dots.
 * @returns Whole numbers.
 */
export function whole(place: PerAxis<number>): PerAxis<number> {
  return { x: Math.round(place.x), y: Math.round(place.y) };
}

/** How a wall is weathered. */
export interface WeatherWallOptions extends WeatherWish {
  /** What chance begins with, a whole number from 0 to 4294967295; 1 unless told. */
  readonly seed?: number;
  /**
   * Sills, copings and string courses that water runs from, in real millimetres from the datum, right and
   * down; the wall's top, level with the datum, unless told.
   */
  readonly ledges?: readonly Ledge[];
  /** Iron that rusts, likewise; a few pieces by chance unless told. */
  readonly fixings?: readonly WallPoint[];
  /** Where the wall stands on the ground, real mm below the datum; null where it stands nowhere. */
  readonly foot: number | null;
  /** Which way it looks: north sides grow green, south sides fade. Neither unless told. */
  readonly facing?: Facing;
  /** Along which axes what comes out is to repeat as the picture does; none unless told. */
  readonly repeats?: PerAxis<boolean>;
}

// As long as any wall.
const far = 1e9;
const wallTop: Ledge = { from: { x: -far, y: 0 }, to: { x: far, y: 0 } };

/**
 * Settle how a wall is weathered, of which no picture is needed.
 *
 * @param options - As the caller gave them.
 * @param wall - Whether it is laid without mortar, and millimetres after which it comes round, 0 for never.
 * @returns What is given, or null where nothing is to be seen of any weather.
 * @throws RangeError when a strength is not 0 to 1, or the seed is not whole.
 */
export function settleSite(
  options: WeatherWallOptions,
  wall: Pick<GivenSite, 'isDry' | 'period'>,
): GivenSite | null {
  const strengths = settleStrengths(options);
  const seed = takeSeed(options.seed);
  if (weatherNames.every((name) => strengths[name] === 0)) return null;
  const { ledges = [wallTop], fixings = null, facing = null, foot } = options;
  // What comes round from top to foot has neither.
  const isEndless = wall.period.y > 0;
  return {
    ...wall,
    strengths,
    seed,
    facing,
    fixings,
    foot: isEndless ? null : foot,
    ledges: isEndless ? [] : ledges,
  };
}

function takeSeed(seed = 1): number {
  if (Number.isInteger(seed) && seed >= 0 && seed < 2 ** 32) return seed | 0;
  throw outOfRange('a whole number from 0 to 4294967295', 'seed', seed);
}
