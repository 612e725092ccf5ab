import { isLaid } from '../../fill/lay-copies.js';
import type { LaidAlong } from '../../raster/list-again.js';
import type { SeenBricks } from '../../finish/weather/lay-bricks.js';
import { readyWeather } from '../../finish/weather/ready-weather.js';
import type { PageRows } from '../../finish/weather/weather-wall.js';
import type { NamedScale } from '../../catalogue/find-scale.js';
import type { Raster } from '../../raster/raster.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';
import { type Dpi, mmPerInch } from '../../units/units.js';
import type { MadeSurface } from '../surface/made-surface.js';
import { isDryLaid } from './is-dry-laid.js';
import { seeWallBricks } from './see-wall-bricks.js';
import type { WeatherOptions } from './weather-options.js';
import { toReal } from './weather-places.js';
import { weatherInThreads } from './weather-threads.js';

/** What a weathered wall is covered with. */
export interface WeatheredSurface extends Pick<MadeSurface, 'lattice' | 'factor'> {
  /** What repeats, and which dot of it lies on the datum. */
  readonly made: Pick<MadeSurface['made'], 'raster' | 'origin'>;
  /** How its photo was measured; left out where there is none. */
  readonly measurement?: MadeSurface['measurement'];
}

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
 * Weather a surface: the wall that it covers, which no tile of it repeats any more.
 *
 * @param surface - What repeats.
 * @param wish - How.
 * @returns What makes the wall's rows, or null where no weather is to be seen.
 */
export function weatherPart(surface: WeatheredSurface, wish: PartToWeather): PageRows | null {
  const { made, lattice, factor, measurement } = surface;
  const { dpi, scale, weather } = wish;
  const { raster: tile, origin } = made;
  // Where a tile is laid of copies, each is looked at once.
  const raster = isLaid(tile) ? tile.copy : tile;
  const copies = copiesOf(tile);
  const mmPerDot = (scale.ratio * mmPerInch) / dpi;
  const { ledges, fixings, foot = wish.foot, ...others } = weather;
  const places = toReal({ ledges, fixings, foot }, scale);
  const ready = readyWeather(
    {
      raster,
      copies,
      bricks: lattice && seeCopy(raster, { copies, origin, lattice, factor }),
      isDry: measurement !== undefined && isDryLaid(measurement.reference),
      mmPerDot: { x: mmPerDot, y: mmPerDot },
      origin,
      meets: { x: true, y: true },
    },
    {
      ...others,
      ...(places.ledges && { ledges: places.ledges }),
      ...(places.fixings && { fixings: places.fixings }),
      foot: places.foot,
    },
  );
  return ready && weatherInThreads(ready);
}

function copiesOf(tile: Raster): PerAxis<LaidAlong> {
  const starts = isLaid(tile) ? tile.starts : { x: [0], y: [0] };
  return {
    x: { starts: starts.x, period: tile.width },
    y: { starts: starts.y, period: tile.height },
  };
}

interface CopyToSee extends Pick<MadeSurface, 'factor'>, Pick<MadeSurface['made'], 'origin'> {
  readonly copies: PerAxis<LaidAlong>;
  readonly lattice: Lattice;
}

// From one copy to the next there are whole courses and whole repeats of the bond.
function seeCopy(raster: Raster, { copies, origin, lattice, factor }: CopyToSee): SeenBricks {
  const { axis, course, brick, repeat } = lattice;
  const across = axis === 'y' ? 'x' : 'y';
  const apart = (which: 'x' | 'y'): number => copies[which].period / copies[which].starts.length;
  const whole = (which: 'x' | 'y', size: number): number =>
    apart(which) / Math.max(1, Math.round(apart(which) / (size * factor[which])));
  const [along, down] = [repeat[across], repeat[axis]];
  return seeWallBricks(raster, {
    axis,
    course: whole(axis, course),
    offset: origin[axis] % apart(axis),
    brick: brick && brick * factor[across],
    bond:
      along === null || down === null
        ? null
        : { length: whole(across, along), courses: Math.max(1, Math.round(down / course)) },
    meets: { x: true, y: true },
  });
}
