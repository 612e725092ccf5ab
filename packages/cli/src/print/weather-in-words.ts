import type { WeatherReport } from '@gaugerod/core';

/**
 * Put the weather in words.
 *
 * @param weather - As a job reports it, or null where none was asked for.
 * @returns Every kind that is there, by how strong it is; null where nothing was asked for.
 */
export function weatherInWords(weather: WeatherReport | null): string | null {
  if (weather === null) return null;
  const { seed, ...strengths } = weather;
  const told = Object.entries(strengths).filter(([, strength]) => strength > 0);
  if (told.length === 0) return 'none: every strength is 0';
  return `${told.map(([name, strength]) => `${name} ${strength}`).join(', ')}, seed ${seed}`;
}
