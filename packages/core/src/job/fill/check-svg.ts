import { extname } from 'node:path';
import { outOfRange } from '../../errors/out-of-range.js';
import { settleStrengths } from '../../finish/weather/strengths.js';
import type { FillPhotoOptions } from './fill-options.js';
import type { WeatherOptions } from '../weather/weather-options.js';

/**
 * Refuse a kind of SVG that makes no sense, before the long work that leads to it.
 *
 * @param options - As the caller gave them.
 * @throws RangeError where it is told of another kind of file, or of what it cannot show.
 */
export function checkSvg(options: FillPhotoOptions): void {
  const { output, svg, outline, bleed = 0, weather } = options;
  if (svg === undefined) return;
  if (extname(output).toLowerCase() !== '.svg') throw outOfRange('an output of .svg', 'svg', svg);
  if (svg === 'pattern' && weather !== undefined && isSeen(weather)) {
    throw outOfRange('baked, for weather does not repeat,', 'svg', svg);
  }
  if (svg !== 'pattern' || outline === undefined || bleed === 0) return;
  throw outOfRange('baked, for a pattern has no bleed past an outline,', 'svg', svg);
}

// All of a preset may be taken back, and then the wall repeats as it did.
function isSeen(weather: WeatherOptions): boolean {
  return Object.values(settleStrengths(weather)).some((strength) => strength > 0);
}
