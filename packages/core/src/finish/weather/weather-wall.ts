import type { Colours } from './paint-row.js';
import { paintRows, type WeatherPage } from './paint-rows.js';
import type { WeatherWallOptions } from './given-site.js';
import { readyWeather, type WeatherWall } from './ready-weather.js';

/** Makes rows of a page of the weathered wall, each in one buffer that is written anew for the next. */
export type PageRows = (page: WeatherPage) => Iterable<Colours>;

/**
 * Makes rows of the weathered wall: RGBRGB…, as encoded in sRGB, a hair under 0 or over 1 here and there, not yet clipped
 * or rounded, each in one buffer that is written anew for the next, so that it may be changed.
 */
export type WeatheredRows = (page: Omit<WeatherPage, 'bare'>) => Iterable<Float32Array>;

/**
 * Weather a wall: soot, streaks, damp, rust, moss, salts, fading, grime and mended places, all of them where they
 * lie on the real wall, whatever part of it a page shows and however fine.
 *
 * @param wall - A picture of it.
 * @param options - How strong each is, what chance begins with, and what the wall is like.
 * @returns What makes its rows, or null where nothing is to be seen of any weather.
 * @throws RangeError when a strength is not 0 to 1, or the seed is not whole.
 */
export function weatherWall(wall: WeatherWall, options: WeatherWallOptions): WeatheredRows | null {
  const { bricks } = wall;
  // What is handed over stays as it is.
  const own = bricks && { ...bricks, likeness: bricks.likeness.slice() };
  const ready = readyWeather({ ...wall, bricks: own }, options);
  return ready && ((page) => paintRows(ready, { ...page, bare: false }) as Iterable<Float32Array>);
}
