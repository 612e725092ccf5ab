import { weatherNames, type WeatherStrengths } from '../../finish/weather/strengths.js';

/** What weather was laid on. */
export interface WeatherReport extends WeatherStrengths {
  /** What chance began with. */
  readonly seed: number;
}

/**
 * Report the weather that was laid on a wall.
 *
 * @param strengths - As they were settled.
 * @param seed - What chance began with, or nothing for the usual 1.
 * @returns Every strength, and the seed.
 */
export function reportWeather(strengths: WeatherStrengths, seed = 1): WeatherReport {
  const told = weatherNames.map((name) => [name, strengths[name]]);
  return { ...(Object.fromEntries(told) as unknown as WeatherStrengths), seed };
}
