import { settleSite } from '../../finish/weather/given-site.js';
import { onWall, type PartToWeather } from './part-to-weather.js';
import { beginPlaces } from './weather-threads.js';

/** Where a part lies on its wall, in dots from the datum, and whether that is laid without mortar. */
export interface PartOnWall {
  /** To its first column, of any sign. */
  readonly left: number;
  /** To its first row, likewise. */
  readonly top: number;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** As far as anybody knows before its photo is measured. */
  readonly isDry: boolean;
}

/**
 * Have threads begin to weather a part, of which no photo is needed.
 *
 * @param part - Where it lies.
 * @param wish - How it is weathered.
 * @returns Ends them, where nothing came of it.
 */
export function beginWeather(part: PartOnWall, wish: PartToWeather): () => void {
  const { isDry, ...page } = part;
  const { mmPerDot, options } = onWall(wish);
  const given = settleSite(options, { isDry, period: { x: 0, y: 0 } });
  if (given === null) return () => undefined;
  return beginPlaces({ ...page, given, mmPerDot: { x: mmPerDot, y: mmPerDot }, past: 0 });
}
