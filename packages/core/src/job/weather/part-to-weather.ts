import type { NamedScale } from '../../catalogue/find-scale.js';
import type { WeatherWallOptions } from '../../finish/weather/given-site.js';
import { type Dpi, mmPerInch } from '../../units/units.js';
import type { WeatherOptions } from './weather-options.js';
import { toReal } from './weather-places.js';

/** How a surface is weathered. */
export interface PartToWeather {
  /** Of the printer. */
  readonly dpi: Dpi;
  /** Of the model. */
  readonly scale: NamedScale;
  /** How, in mm of paper. */
  readonly weather: WeatherOptions;
  /** Where it stands on the ground where `weather` does not say: mm of paper below the datum, or null for nowhere. */
  readonly foot: number | null;
}

/**
 * Bring all that is told of a part's weather to the real wall.
 *
 * @param part - It.
 * @returns Millimetres of the wall to a dot, and how it is weathered.
 */
export function onWall(part: PartToWeather): {
  readonly mmPerDot: number;
  readonly options: WeatherWallOptions;
} {
  const { dpi, scale, weather, foot: lowest } = part;
  const { ledges, fixings, foot = lowest, ...others } = weather;
  const places = toReal({ ledges, fixings, foot }, scale);
  return {
    mmPerDot: (scale.ratio * mmPerInch) / dpi,
    options: {
      ...others,
      ...(places.ledges && { ledges: places.ledges }),
      ...(places.fixings && { fixings: places.fixings }),
      foot: places.foot,
    },
  };
}
