import type { NamedScale } from '../../catalogue/find-scale.js';
import type { Ledge, WallPoint } from '../../finish/weather/site.js';

/** What is where on a wall. */
export interface WeatherPlaces {
  /** What water runs from. */
  readonly ledges: readonly Ledge[] | undefined;
  /** What rusts. */
  readonly fixings: readonly WallPoint[] | undefined;
  /** Where it stands on the ground. */
  readonly foot: number | null;
}

/**
 * Bring places on paper to the real wall.
 *
 * @param places - In mm of paper.
 * @param scale - Of the model.
 * @returns In real mm.
 */
export function toReal(places: WeatherPlaces, scale: NamedScale): WeatherPlaces {
  const { ledges, fixings, foot } = places;
  const real = ({ x, y }: WallPoint): WallPoint => ({ x: x * scale.ratio, y: y * scale.ratio });
  return {
    ledges: ledges?.map(({ from, to }) => ({ from: real(from), to: real(to) })),
    fixings: fixings?.map(real),
    foot: foot === null ? null : foot * scale.ratio,
  };
}
