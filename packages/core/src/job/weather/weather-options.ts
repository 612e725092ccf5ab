import { outOfRange } from '../../errors/out-of-range.js';
import type { Warning } from '../../errors/warning.js';
import type { Ledge, WallPoint } from '../../finish/weather/site.js';
import {
  type Facing,
  facings,
  settleStrengths,
  type WeatherName,
  weatherNames,
  type WeatherStrengths,
  type WeatherWish,
} from '../../finish/weather/strengths.js';

/**
 * What weather does to a wall. Lengths are millimetres from the wall's datum, right and down: of paper where
 * a part is filled, of the real wall where a photo is weathered.
 */
export interface WeatherOptions extends WeatherWish {
  /** What chance begins with, a whole number from 0 to 4294967295; 1 unless told. */
  readonly seed?: number;
  /**
   * Sills, copings and string courses that water runs from; the wall's top, at the datum, unless told. What a piece has
   * of its own, edges of its outline or of its relief, comes beside them.
   */
  readonly ledges?: readonly Ledge[];
  /** Iron that rusts; a few pieces by chance unless told. */
  readonly fixings?: readonly WallPoint[];
  /** How far below the datum the wall stands on the ground; at the picture's lower edge unless told. */
  readonly foot?: number;
  /** Which way it looks; no way in particular unless told. */
  readonly facing?: Facing;
}

const mostPoints = 10_000;
const farthest = 1e6;

/**
 * Check what is told of the weather, before anything is read.
 *
 * @param options - As the caller gave them.
 * @returns How strong each kind is.
 * @throws RangeError where something cannot be, or stands alone.
 */
export function checkWeather(options: WeatherOptions): WeatherStrengths {
  const { seed, facing } = options;
  const strengths = settleStrengths(options);
  refuseAlone(options);
  if (seed !== undefined && !(Number.isInteger(seed) && seed >= 0 && seed < 2 ** 32)) {
    throw outOfRange('a whole number from 0 to 4294967295', 'seed', seed);
  }
  if (facing !== undefined && !facings.includes(facing)) {
    throw outOfRange(`one of ${facings.join(', ')}`, 'facing', facing);
  }
  checkPlaces(options);
  refuseUnused(options, strengths);
  return strengths;
}

function refuseAlone(options: WeatherOptions): void {
  if (isWeatherTold(options)) return;
  for (const name of ['seed', 'ledges', 'fixings', 'foot', 'facing'] as const) {
    const value = options[name];
    if (value === undefined) continue;
    const got = typeof value === 'object' ? showPlaces(value) : value;
    throw outOfRange('a preset or a strength of weather beside it', name, got);
  }
}

const users = {
  ledges: ['soot', 'streaks', 'moss'],
  fixings: ['rust'],
  foot: ['damp', 'moss'],
  facing: ['moss', 'fade'],
} as const satisfies Partial<Record<keyof WeatherOptions, readonly WeatherName[]>>;

// No word on what nothing would show.
function refuseUnused(options: WeatherOptions, strengths: WeatherStrengths): void {
  for (const name of ['ledges', 'fixings', 'foot', 'facing'] as const) {
    const value = options[name];
    const by = users[name];
    if (value === undefined || by.some((one) => strengths[one] > 0)) continue;
    const got = typeof value === 'object' ? showPlaces(value) : value;
    throw outOfRange(`${by.join(' or ')} above 0 beside it`, name, got);
  }
}

/**
 * Tell where a part of a wall is taken to stand on the ground, though it may be another that does.
 *
 * @param options - As the caller gave them.
 * @param datum - Where the part lies, or undefined where that was not told.
 * @returns A warning where wet or growth rises from its lower edge.
 */
export function warnOfFoot(
  options: WeatherOptions,
  datum: WallPoint | undefined,
): readonly Warning[] {
  const { damp, moss } = settleStrengths(options);
  if (datum === undefined || options.foot !== undefined || damp + moss === 0) return [];
  const message =
    'the wall is taken to stand on the ground at the lower edge of this part: where it goes on below, give --foot, the same for all its parts';
  return [{ code: 'foot-assumed', message }];
}

function checkPlaces({ foot = 0, ledges = [], fixings = [] }: WeatherOptions): void {
  checkMm(foot, 'foot');
  const ends = ledges.flatMap(({ from, to }) => [from, to]);
  checkPoints(ends, 'ledges');
  checkPoints(fixings, 'fixings');
  for (const { from, to } of ledges) {
    if (from.x !== to.x) continue;
    throw outOfRange('a line that is not upright', 'ledges', showPlaces([{ from, to }]));
  }
}

/**
 * Word places on a wall for a message.
 *
 * @param places - Points or ledges.
 * @returns The first of them, and how many more there are.
 */
export function showPlaces(places: readonly (WallPoint | Ledge)[]): string {
  const [first] = places;
  if (first === undefined) return 'none';
  const spots = 'from' in first ? [first.from, first.to] : [first];
  const shown = spots.map(({ x, y }) => `${x},${y}`).join(' ');
  return places.length === 1 ? shown : `${shown} and ${places.length - 1} more`;
}

/**
 * Tell whether any weather was asked for.
 *
 * @param options - As the caller gave them.
 * @returns False where nothing says how strong any of it is.
 */
export function isWeatherTold(options: WeatherOptions): boolean {
  return options.preset !== undefined || weatherNames.some((name) => options[name] !== undefined);
}

function checkPoints(points: readonly WallPoint[], name: string): void {
  if (points.length > mostPoints)
    throw outOfRange(`up to ${mostPoints} points`, name, points.length);
  for (const { x, y } of points) {
    checkMm(x, name);
    checkMm(y, name);
  }
}

function checkMm(mm: number, name: string): void {
  if (!(Math.abs(mm) <= farthest)) throw outOfRange('up to 1 km', name, `${mm} mm`);
}
