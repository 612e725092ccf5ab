import type { FoundOutlines, Outline } from '../../drawing/dress/find-outlines.js';
import { matchKeys } from '../../drawing/dress/match-keys.js';
import type { PaintKey } from '../../drawing/dress/paint-key.js';
import type { Drawing } from '../../drawing/drawing.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { ProfileId } from '../../finish/relief/profiles/profile.js';
import type { WeatherName } from '../../finish/weather/strengths.js';
import { type Dpi, mmPerInch } from '../../units/units.js';
import type { LaidOutline } from './dress-plan.js';
import type { PlacedRelief } from './dress-relief-options.js';
import { placeWeather } from './place-weather.js';
import { type KeyRefusal, refuseKeys } from './refuse-keys.js';
import { checkWeather, type WeatherOptions } from '../weather/weather-options.js';
import type { WeatherPlaces } from '../weather/weather-places.js';

/** What weather does to a drawing's walls. */
export interface DressWeather extends Omit<WeatherOptions, 'ledges' | 'fixings'> {
  /**
   * Outlines, or lines, that water runs from: sills, copings, and windows for their sills; beside the upper edges of
   * what is covered, tops of walls and where holes end.
   */
  readonly ledges?: readonly PaintKey[];
  /** Outlines of iron that rusts, each about its middle; a few pieces by chance unless told. */
  readonly fixings?: readonly PaintKey[];
}

const users = {
  ledges: ['soot', 'streaks', 'moss'],
  fixings: ['rust'],
} as const satisfies Record<string, readonly WeatherName[]>;

/**
 * Check what is told of a drawing's weather, before anything is read.
 *
 * @param weather - As the caller gave it.
 * @returns What of it is the same for all walls.
 * @throws RangeError where something cannot be, or stands alone.
 */
export function checkDressWeather(weather: DressWeather): WeatherOptions {
  const { ledges, fixings, ...others } = weather;
  const keys = { ledges, fixings };
  const strengths = checkWeather(others);
  for (const name of ['ledges', 'fixings'] as const) {
    const told = keys[name];
    if (told === undefined || users[name].some((one) => strengths[one] > 0)) continue;
    const got = told.map(({ text }) => text).join(', ');
    throw outOfRange(`${users[name].join(' or ')} above 0 beside it`, name, got);
  }
  return others;
}

/** Weather of a drawing's walls, and what is where on them. */
export interface PlacedWeather {
  /** What is the same for all of them. */
  readonly weather: WeatherOptions;
  /** By outline: mm of paper from the datum. */
  readonly places: ReadonlyMap<LaidOutline, WeatherPlaces>;
}

/** What a drawing's weather is placed by. */
export interface DressedWalls {
  /** Of the drawing. */
  readonly path: string;
  /** It. */
  readonly drawing: Drawing;
  /** Its outlines. */
  readonly found: FoundOutlines;
  /** Those that are covered. */
  readonly laid: readonly LaidOutline[];
  /** Of the printer. */
  readonly dpi: Dpi;
}

// What stands out of a wall so that water drips from it.
const drips: readonly ProfileId[] = ['sill', 'string-course'];

// No two outlines share a picture, and all pictures are held until the drawing is written.
const mostOutlines = 2000;
const mostPixels = 500e6;

/**
 * Place a drawing's weather by its outlines; sills and string courses in relief are ledges unasked.
 *
 * @param weather - As the caller gave it, checked; nothing where none was asked for.
 * @param walls - The outlines, and those in relief.
 * @returns It, or null where there is none; or why a key means nothing.
 * @throws TextureError `too-large` where pictures of all outlines would be.
 */
export function placeDressWeather(
  weather: DressWeather | undefined,
  walls: DressedWalls & { readonly reliefs: ReadonlyMap<LaidOutline, PlacedRelief> },
): Outcome<PlacedWeather | null, KeyRefusal> {
  if (weather === undefined) return { ok: true, value: null, warnings: [] };
  const { drawing, laid, dpi, reliefs } = walls;
  const many = refuseMany(walls, 'weather');
  if (many !== null) return many;
  const ledges = meantBy(weather.ledges, walls);
  if (!ledges.ok) return ledges;
  const fixings = meantBy(weather.fixings, walls);
  if (!fixings.ok) return fixings;
  const standing = laid.filter((one) => drips.some((drip) => drip === reliefs.get(one)?.profile));
  const places = placeWeather(laid, {
    drawing,
    ledges: [...(ledges.value ?? []), ...standing.map(({ outline }) => outline)],
    fixings: fixings.value,
    foot: weather.foot,
    dot: mmPerInch / dpi,
  });
  return { ok: true, value: { weather: checkDressWeather(weather), places }, warnings: [] };
}

/**
 * Refuse more outlines than can have a picture each.
 *
 * @param walls - The outlines.
 * @param what - What leaves no two of them alike.
 * @returns Why, or null.
 * @throws TextureError `too-large` where pictures of all of them would be.
 */
export function refuseMany(
  walls: DressedWalls,
  what: 'weather' | 'relief',
): Extract<Outcome<never, KeyRefusal>, { readonly ok: false }> | null {
  const { path, laid } = walls;
  if (laid.length > mostOutlines) {
    return {
      ok: false,
      code: 'too-many-outlines',
      message: `the keys mean ${laid.length} outlines in ${showPath(path)}, and ${mostOutlines} is the most that have ${what}, each with a picture of its own`,
      hint: `join those that lie side by side into one path, or leave ${what} out`,
    };
  }
  const pixels = laid.reduce((sum, { dots }) => sum + (dots.x1 - dots.x0) * (dots.y1 - dots.y0), 0);
  if (pixels <= mostPixels) return null;
  const message = `the outlines in ${showPath(path)} would take ${Math.round(pixels / 1e6)} million dots, and each its own, for ${what} does not repeat: ${mostPixels / 1e6} is the most`;
  const hint = 'ask for fewer --dpi, or cover a part of the drawing at a time';
  throw new TextureError('too-large', message, { hint });
}

function meantBy(
  keys: readonly PaintKey[] | undefined,
  { path, drawing, found }: DressedWalls,
): Outcome<readonly Outline[] | null, KeyRefusal> {
  if (keys === undefined) return { ok: true, value: null, warnings: [] };
  const meant = matchKeys(drawing, found.outlines, keys);
  const refusal = refuseKeys(path, found, { drawing, keys, meant });
  if (refusal !== null) return refusal;
  return { ok: true, value: meant.matched.map(({ outline }) => outline), warnings: [] };
}
